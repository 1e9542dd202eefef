// What is wrong with the screen that stands there: evaluated in the page, answers sentences.
/** @param {[number, number]} sizes smallest side of a key, smallest text, in px */
([smallestKey, smallestText]) => {
  /** @type {string[]} */
  const found = [];
  /** @param {Element} part */
  const spoken = (part) =>
    (part.getAttribute("aria-label") ?? part.textContent ?? part.tagName).slice(0, 40);

  /** @param {Element} key */
  const lookAtKey = (key) => {
    const box = (key.querySelector(".place-touch") ?? key).getBoundingClientRect();
    if (box.width === 0) return;
    if (Math.min(box.width, box.height) < smallestKey - 0.5)
      found.push(`${spoken(key)}: ${box.width.toFixed()} by ${box.height.toFixed()} px`);
    if (key.closest(".drawing, .face") || key.tagName === "TEXTAREA") return;
    if (box.right > innerWidth + 1 || box.left < -1) found.push(`${spoken(key)}: out of sight`);
    if (key.scrollWidth > key.clientWidth + 2) found.push(`${spoken(key)}: words do not fit`);
  };

  /** @param {Node} text */
  const lookAtText = (text) => {
    const holder = text.parentElement;
    if (!holder || !text.textContent?.trim() || holder.closest(".unseen, noscript, svg")) return;
    const size = Number.parseFloat(getComputedStyle(holder).fontSize);
    if (size < smallestText) found.push(`${spoken(holder)}: text of ${size} px`);
  };

  /** @param {DOMRect | undefined} a @param {DOMRect | undefined} b */
  const lieOver = (a, b) =>
    a !== undefined &&
    b !== undefined &&
    a.left < b.right - 1 &&
    b.left < a.right - 1 &&
    a.top < b.bottom - 1 &&
    b.top < a.bottom - 1;

  /** @param {Element[]} keys */
  const lookAtPairs = (keys) => {
    const boxes = keys.map((key) => key.getBoundingClientRect());
    keys.forEach((key, first) => {
      keys.slice(first + 1).forEach((other, after) => {
        if (lieOver(boxes[first], boxes[first + 1 + after]))
          found.push(`${spoken(key)} lies over ${spoken(other)}`);
      });
    });
  };

  const pressed = "button, [role=button], select, input:not([type=file]), textarea, a, summary";
  document.querySelectorAll(pressed).forEach(lookAtKey);
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) lookAtText(texts.currentNode);
  lookAtPairs([...document.querySelectorAll(".foot button")]);
  if (document.documentElement.scrollWidth > innerWidth)
    found.push("the page is wider than the screen");
  const middle = document.querySelector(".middle");
  if (middle && middle.scrollWidth > middle.clientWidth + 1)
    found.push("the words are wider than the screen");
  return [...new Set(found)];
};
