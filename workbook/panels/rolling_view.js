// The shot in time: play, pause, a slider of time, a choice of speed. Everything comes with `shot`;
// nothing is fetched. Colours come from the drawings' style.
const RATES = [["real time", 1], ["1/2", 1 / 2], ["1/4", 1 / 4], ["1/8", 1 / 8]];
const SPOKEN_MS = 100; // readings change no faster than one can read

function made(kind, into, attributes = {}, text = "") {
  const node = document.createElement(kind);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(document.createTextNode(text));
  into.append(node);
  return node;
}

function parts(root) {
  const bar = made("div", root, { class: "workbook-rolling-bar" });
  const button = made("button", bar, { type: "button" }, "Play");
  const slider = made("input", bar, { type: "range", min: 0, step: "any", value: 0,
    "aria-label": "time since release [s]" });
  const clock = made("output", bar, { "aria-hidden": "true" }, "0.00 s");
  const rates = made("select", made("label", bar, {}, "speed "), { "aria-label": "speed of play" });
  for (const [words, rate] of RATES) made("option", rates, { value: rate }, words);
  rates.value = String(1 / 4);
  const picture = { role: "img", class: "workbook-rolling-lane" };
  const lane = new LaneDrawing(made("canvas", root, picture));
  const row = made("div", root, { class: "workbook-rolling-balls" });
  const sides = ["A", "B"].map(() => {
    const box = made("div", row), canvas = made("canvas", box, { role: "img" });
    const words = made("div", box);
    return { drawing: new BallDrawing(canvas), canvas, name: made("strong", words),
      readings: made("p", words, { "aria-live": "polite", "aria-atomic": "true" }) };
  });
  return { button, slider, clock, rates, lane, row, sides };
}

function render({ model, el }) {
  const root = made("div", el, { class: "workbook-rolling" });
  // plain keys are for these controls: Lab would take the arrows for its cells
  root.addEventListener("keydown", (key) => {
    if (!key.ctrlKey && !key.metaKey && !key.altKey) key.stopPropagation();
  });
  const { button, slider, clock, rates, lane, row, sides } = parts(root);
  let shot = null, time = 0, playing = false, inSight = true, wanted = 0, last = 0, told = -Infinity;

  const end = () => Math.max(...shot.balls.map((ball) => ball.end_s));
  // the data of a text node changes in place: nothing that watches the page for new parts wakes up
  const write = (node, text) => { if (node.firstChild.data !== text) node.firstChild.data = text; };

  function tell(now) {
    told = now;
    const spoken = playing ? "off" : "polite";
    shot.balls.forEach((ball, i) => {
      const { readings } = sides[i];
      if (readings.getAttribute("aria-live") !== spoken) readings.setAttribute("aria-live", spoken);
      write(readings, said(ball, time));
    });
    write(clock, `${time.toFixed(2)} s`);
    slider.value = time;
    slider.setAttribute("aria-valuetext", `${time.toFixed(2)} s`);
  }

  function draw() {
    lane.draw(time);
    shot.balls.forEach((ball, i) => sides[i].drawing.draw(ball, time, shot));
  }

  function step(now) {
    wanted = 0;
    time = Math.min(time + (now - last) / 1000 * Number(rates.value), end());
    last = now;
    if (time >= end()) playing = false;
    draw();
    if (!playing || now - told > SPOKEN_MS) tell(now);
    follow();
  }

  // Frames are asked for only while there is something to see.
  function follow() {
    const runs = playing && inSight && !document.hidden;
    if (runs && !wanted) {
      wanted = requestAnimationFrame(step);
      if (!last) last = performance.now();
    }
    if (!runs) {
      if (wanted) cancelAnimationFrame(wanted);
      wanted = last = 0;
    }
    write(button, playing ? "Pause" : "Play");
  }

  function fit() {
    const wide = root.clientWidth;
    if (!shot || wide < 50) return;
    lane.fit(wide, shot);
    const each = wide / 2, em = parseFloat(getComputedStyle(root).fontSize);
    const beside = each >= 21 * em;
    row.classList.toggle("workbook-rolling-narrow", !beside);
    const side = Math.floor(Math.min(beside ? each - 12.5 * em : each - 12, 16 * em));
    for (const { drawing } of sides) drawing.fit(side);
    draw();
  }

  function take() {
    const sent = model.get("shot");
    if (!sent.balls) return;
    shot = { ...sent, balls: sent.balls.map(unpack) };
    root.style.color = shot.looks.ink;
    root.style.background = shot.looks.paper;
    time = Math.min(time, end());
    slider.max = end();
    shot.balls.forEach((ball, i) => {
      write(sides[i].name, `${ball.label}  ${ball.name}`);
      sides[i].name.style.color = ball.words;
      sides[i].canvas.setAttribute("aria-label", `ball ${ball.label} turning, from the foul line`);
    });
    lane.canvas.setAttribute("aria-label", shot.words);
    fit();
    tell(0);
  }

  button.addEventListener("click", () => {
    if (!playing && time >= end()) time = 0;
    playing = !playing;
    tell(0);
    follow();
  });
  slider.addEventListener("input", () => {
    playing = false;
    time = Number(slider.value);
    draw();
    tell(0);
    follow();
  });
  // several changes may come at once: the last one holds
  const looking = new IntersectionObserver((changes) => {
    inSight = changes.at(-1).isIntersecting;
    follow();
  });
  looking.observe(root);
  const sizes = new ResizeObserver(fit);
  sizes.observe(root);
  document.addEventListener("visibilitychange", follow);
  model.on("change:shot", take);
  take();
  return () => {
    playing = false;
    follow();
    looking.disconnect();
    sizes.disconnect();
    document.removeEventListener("visibilitychange", follow);
    model.off("change:shot", take);
  };
}
export default { render };
