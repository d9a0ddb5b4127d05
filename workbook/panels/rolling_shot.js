// A shot as it is sent: unpacking, and what it is at a moment.
const COLUMNS = 12; // of a frame: board, ft, mph, rpm, turns, quaternion w x y z, spin axis x y z
const TURN = 5, AXIS = 9;

const floats = (view) =>
  new Float32Array(view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));

function unpack(ball) {
  const frames = floats(ball.frames);
  const many = (views) => views.map(floats);
  return { ...ball, frames, count: frames.length / COLUMNS, holes: many(ball.holes),
    rings: many(ball.rings), lines: many(ball.lines) };
}

// Frame of a ball at a time [s]: places linear between two frames, the turn by slerp.
function at(ball, time) {
  const place = Math.min(time / ball.end_s, 1) * (ball.count - 1);
  const i = Math.min(Math.floor(place), ball.count - 2), share = place - i;
  const a = ball.frames.subarray(i * COLUMNS, (i + 1) * COLUMNS);
  const b = ball.frames.subarray((i + 1) * COLUMNS, (i + 2) * COLUMNS);
  const now = new Float64Array(COLUMNS);
  for (let k = 0; k < COLUMNS; k++) now[k] = a[k] + share * (b[k] - a[k]);
  let cosine = 0;
  for (let k = TURN; k < AXIS; k++) cosine += a[k] * b[k];
  const angle = Math.max(Math.acos(Math.min(Math.abs(cosine), 1)), 1e-6);
  const from = Math.sin((1 - share) * angle) / Math.sin(angle);
  const to = Math.sign(cosine || 1) * Math.sin(share * angle) / Math.sin(angle);
  for (let k = TURN; k < AXIS; k++) now[k] = from * a[k] + to * b[k];
  return now;
}

const plain = (number, digits) => (Math.abs(number) < 0.5 * 10 ** -digits ? 0 : number)
  .toFixed(digits); // never "-0.0"

function phase(ball, time) {
  if (time >= ball.end_s) return ball.gutter ? "in the gutter" : "at the pins";
  if (ball.roll_s !== null && time >= ball.roll_s) return "roll";
  return ball.hook_s !== null && time >= ball.hook_s ? "hook" : "skid";
}

function said(ball, time) {
  const now = at(ball, time), when = Math.min(time, ball.end_s);
  const rings = ball.ring_s.filter((t) => t <= time).length;
  return `${when.toFixed(2)} s: ${phase(ball, time)}\nboard ${plain(now[0], 1)}\n`
    + `${plain(now[1], 1)} ft\n${now[2].toFixed(1)} mph\n${now[3].toFixed(0)} rpm\n`
    + `${now[4].toFixed(1)} turns, ${rings} oil ring${rings === 1 ? "" : "s"}`;
}
