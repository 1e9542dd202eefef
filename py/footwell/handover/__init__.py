"""What is handed to the customer: cause behind the cause, repair advice, report."""
