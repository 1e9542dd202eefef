"""What the page and the terminal show, made from the core's answers: sentences, groups, numbers."""
