// Runs a workbook page by itself when it is opened: JupyterLab has no setting for that.
// Written by hand in the form that Lab loads, so that no Node build is needed.
(() => {
  const opened = new WeakSet();

  async function open(app, panel) {
    if (!panel || !panel.context || !panel.content.model || !panel.sessionContext || opened.has(panel)) return;
    opened.add(panel);
    await panel.context.ready;
    const wasDirty = panel.context.model.dirty; // a kernel that connects marks the page as changed
    await Promise.all([panel.revealed, panel.sessionContext.ready]);
    const page = panel.content.model.getMetadata("workbook");
    if (!page || !page.autorun) return;
    // the session is ready before its connection is; a run in that gap would be lost
    const kernel = panel.sessionContext.session && panel.sessionContext.session.kernel;
    if (kernel) await kernel.info;
    if (app.shell.currentWidget !== panel) {
      opened.delete(panel); // the command below runs the page in front: wait until it is this one
      return;
    }
    app.shell.collapseLeft();
    await app.commands.execute("notebook:run-all-cells");
    panel.content.activeCellIndex = 0;
    await panel.content.scrollToItem(0, "start");
    if (!wasDirty) panel.context.model.dirty = false; // running it changed nothing of the reader's
  }

  // folded code takes one thin line; a click on its dots opens it
  const style = document.createElement("style");
  style.textContent =
    ".jp-InputPlaceholder { font-size: 10px; opacity: 0.55; min-height: 0; border: none; }" +
    ".jp-InputPlaceholder .jp-Placeholder-contentContainer { padding: 0; min-height: 16px; }";
  document.head.append(style);

  const plugin = {
    id: "workbook-opener:plugin",
    autoStart: true,
    activate: (app) => {
      const look = () => open(app, app.shell.currentWidget);
      app.restored.then(look);
      app.shell.currentChanged.connect(look);
    },
  };
  const container = {
    init: () => {},
    get: async () => () => ({ __esModule: true, default: plugin }),
  };
  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["workbook-opener"] = container;
})();
