// What stock sliders and images lack: names for screen readers, and numbers as people type them.
function render({ model, el }) {
  el.style.display = "none";
  const panel = ":is(.workbook-panel, .workbook-card)";
  const give = (element, attribute, text) => {
    if (element.getAttribute(attribute) !== text) element.setAttribute(attribute, text);
  };
  const readout = (handle) => handle.closest(".widget-slider")?.querySelector(".widget-readout");
  // a handle itself says a count of steps
  const speak = (handle) => give(handle, "aria-valuetext", readout(handle)?.textContent ?? "");

  const apply = () => {
    for (const [selector, attribute, text] of model.get("names"))
      for (const found of document.querySelectorAll(selector)) give(found, attribute, text);
    for (const button of document.querySelectorAll(`${panel} .widget-toggle-button`)) {
      const state = button.closest(".workbook-fold") ? "aria-expanded" : "aria-pressed";
      button.setAttribute(state, button.classList.contains("mod-active"));
    }
    document.querySelectorAll(`${panel} .noUi-handle`).forEach(speak);
    // Lab would take their arrow keys for its cells
    for (const menu of document.querySelectorAll(`${panel} :is(select, input[type=radio])`))
      give(menu, "data-lm-suppress-shortcuts", "true");
  };
  // widgets are put on the page one by one, and again when a folded part is opened
  let soon = 0;
  const watch = new MutationObserver((changes) => {
    for (const { attributeName, target } of changes)
      if (attributeName === "aria-valuetext" && target.matches(`${panel} .noUi-handle`)) speak(target);
    if (!soon && changes.some(({ attributeName, target, addedNodes }) =>
      (attributeName !== "aria-valuetext" && target.closest?.(panel))
        || [...addedNodes].some((it) => it.querySelector?.(panel))))
      soon = requestAnimationFrame(() => { soon = 0; apply(); });
  });
  watch.observe(document.body, {
    childList: true, subtree: true, attributes: true, attributeFilter: ["class", "aria-valuetext"],
  });
  model.on("change:names", apply);
  apply();

  // A stock slider cuts what is typed to its range without a word, and reads 12,5 as 12.
  let before = null; // what stood there, while somebody types
  const typed = (event) => {
    const box = event.target;
    // of this view of the panel: another may show the same one
    if (!box.matches?.(".widget-readout[contenteditable=true]")) return;
    if (!el.closest(panel)?.contains(box)) return;
    if (event.type === "beforeinput") before ??= box.textContent;
    const ends = event.type === "blur" || event.key === "Enter" || event.key === "Escape";
    if (!ends) return;
    event.stopPropagation();
    if (event.type === "keydown") event.preventDefault();
    if (before === null) return;
    const text = box.innerText;
    box.textContent = before; // the control says what comes of it
    before = null;
    if (event.key !== "Escape") model.send({ classes: [...box.parentElement.classList], text });
  };
  const kinds = ["beforeinput", "keydown", "blur"];
  for (const kind of kinds) document.addEventListener(kind, typed, true);
  return () => {
    watch.disconnect();
    for (const kind of kinds) document.removeEventListener(kind, typed, true);
  };
}
export default { render };
