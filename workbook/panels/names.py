"""Names for screen readers: stock slider handles have no name and images no text of their own."""

from typing import Any

import anywidget
import traitlets


class Names(anywidget.AnyWidget):
    """Sets attributes of elements of the page; shows nothing itself.

    `names` is a list of (CSS selector, attribute, text).
    """

    _esm = """
    function render({ model, el }) {
      el.style.display = "none";
      const panel = ".workbook-panel";
      const apply = () => {
        for (const [selector, attribute, text] of model.get("names"))
          for (const found of document.querySelectorAll(selector))
            if (found.getAttribute(attribute) !== text) found.setAttribute(attribute, text);
        for (const button of document.querySelectorAll(`${panel} .widget-toggle-button`)) {
          const state = button.closest(".workbook-fold") ? "aria-expanded" : "aria-pressed";
          button.setAttribute(state, button.classList.contains("mod-active"));
        }
      };
      // widgets are put on the page one by one, and again when a folded part is opened
      let soon = 0;
      const watch = new MutationObserver((changes) => {
        if (!soon && changes.some(({ target, addedNodes }) => target.closest?.(panel)
            || [...addedNodes].some((it) => it.querySelector?.(panel))))
          soon = requestAnimationFrame(() => { soon = 0; apply(); });
      });
      watch.observe(document.body, {
        childList: true, subtree: true, attributes: true, attributeFilter: ["class"],
      });
      model.on("change:names", apply);
      apply();
      return () => watch.disconnect();
    }
    export default { render };
    """
    names: Any = traitlets.List().tag(sync=True)
