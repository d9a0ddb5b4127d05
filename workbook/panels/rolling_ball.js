// A turning ball as seen from the foul line, a little from above.
const SLANT = (28 * Math.PI / 180); // how far from above

// Rows right, up, toward the viewer: from the ball frame to the page.
function seen(frame, hand) {
  const [w, x, y, z] = frame.subarray(TURN, AXIS);
  const r = [
    [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
  ];
  const s = Math.sin(SLANT), c = Math.cos(SLANT), side = hand === "right" ? 1 : -1;
  return [r[0].map((v) => side * v), r[1].map((v, k) => s * v + c * r[2][k]),
    r[1].map((v, k) => s * r[2][k] - c * v)];
}

const onPage = (m, p, i) =>
  m.map((row) => row[0] * p[i] + row[1] * p[i + 1] + row[2] * p[i + 2]);

class BallDrawing {
  constructor(canvas) { this.canvas = canvas; }

  fit(side) {
    this.side = side;
    this.letters = lettersIn(this.canvas.parentElement);
    this.pen = sized(this.canvas, side, side, this.letters);
    this.radius = side / 2 - 3;
  }

  line(m, points) {
    const { pen, radius } = this;
    pen.beginPath();
    let hidden = true;
    for (let i = 0; i < points.length; i += 3) {
      const [right, up, near] = onPage(m, points, i);
      if (near >= 0) pen[hidden ? "moveTo" : "lineTo"](right * radius, -up * radius);
      hidden = near < 0;
    }
    pen.stroke();
  }

  hole(m, points, looks) {
    const { pen, radius } = this, spots = [];
    let near = false;
    for (let i = 0; i < points.length; i += 3) {
      const spot = onPage(m, points, i), out = spot[2] < 0 ? Math.hypot(spot[0], spot[1]) : 1;
      near ||= spot[2] >= 0;
      spots.push([spot[0] / out * radius, -spot[1] / out * radius]); // what is behind, on the rim
    }
    if (!near) return;
    pen.beginPath();
    for (const [x, y] of spots) pen.lineTo(x, y);
    pen.closePath();
    pen.fillStyle = looks.hole;
    pen.fill();
    pen.strokeStyle = looks.ink;
    pen.lineWidth = 1;
    pen.stroke();
  }

  // Where the spin axis has been since release, and an open circle where it is.
  axis(m, ball, now, time, looks) {
    const { pen, radius } = this, step = ball.end_s / (ball.count - 1), been = [];
    for (let i = 0; i < ball.count && i * step <= time; i++) {
      const axis = ball.frames.subarray(i * COLUMNS + AXIS, (i + 1) * COLUMNS);
      if (Math.hypot(...axis) > 0.5) been.push(...axis);
    }
    been.push(...now.subarray(AXIS));
    const [right, up, near] = onPage(m, now, AXIS);
    if (Math.hypot(right, up, near) < 0.5) return; // a ball that does not spin has none
    pen.strokeStyle = looks.ink;
    pen.lineWidth = 2;
    pen.setLineDash([2, 3]);
    this.line(m, been);
    pen.setLineDash([]);
    if (near < 0) return;
    pen.beginPath();
    pen.arc(right * radius, -up * radius, 5, 0, 2 * Math.PI);
    pen.stroke();
  }

  mark(m, kind, place, ball, looks) {
    const [right, up, near] = onPage(m, place, 0);
    if (near < 0.05) return;
    const { pen, radius } = this, x = right * radius, y = -up * radius;
    pen.beginPath();
    pen.lineWidth = 3;
    pen.strokeStyle = pen.fillStyle = kind === "pin" ? ball.colour : looks.ink;
    if (kind === "pin") pen.arc(x, y, 5, 0, 2 * Math.PI), pen.fill();
    else {
      const turned = kind === "PAP" ? [[5, 0], [0, 5]] : [[4, 4], [4, -4]];
      for (const [a, b] of turned) pen.moveTo(x - a, y - b), pen.lineTo(x + a, y + b);
      pen.stroke();
    }
    pen.fillStyle = looks.ink;
    pen.fillText(kind, x + (x > 0.6 * radius ? -1 : 1) * 1.6 * this.letters, y - 0.8 * this.letters);
  }

  draw(ball, time, { hand, looks }) {
    const { pen, side, radius } = this, now = at(ball, time), m = seen(now, hand);
    pen.save();
    pen.clearRect(0, 0, side, side);
    pen.translate(side / 2, side / 2);
    pen.beginPath();
    pen.arc(0, 0, radius, 0, 2 * Math.PI);
    pen.fillStyle = looks.ball;
    pen.fill();
    pen.strokeStyle = looks.muted;
    pen.lineWidth = 1.2;
    pen.stroke();
    pen.lineWidth = 1;
    for (const points of ball.lines) this.line(m, points);
    pen.strokeStyle = ball.colour;
    const done = ball.ring_s.filter((t) => t <= time).length;
    ball.rings.slice(0, done).forEach((points, i) => {
      pen.globalAlpha = 1 - 0.62 * i / Math.max(ball.rings.length - 1, 1); // the first darkest
      pen.lineWidth = i === done - 1 ? 2.4 : 1.4;
      this.line(m, points);
    });
    pen.globalAlpha = 1;
    for (const points of ball.holes) this.hole(m, points, looks);
    this.axis(m, ball, now, time, looks);
    pen.font = font(this.letters);
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    for (const [kind, place] of ball.marks) this.mark(m, kind, place, ball, looks);
    pen.restore();
  }
}
