// The lane from above: a still part, drawn once a shot, and what moves on it.
const RIGHT = 10, TOP = 6; // margins of the lane [px]; at the left and below in letters
const LEFT_LETTERS = 5.5, FOOT_LETTERS = 1.85;

// Size [px] of letters in a drawing that lies in `box`: a little less than of the words beside it.
const lettersIn = (box) => 0.9 * parseFloat(getComputedStyle(box).fontSize);
const font = (letters, weight = "") => `${weight} ${letters}px DejaVu Sans, Arial, sans-serif`;

// A canvas that is sharp on every screen; size in CSS pixels.
function sized(canvas, wide, high, letters) {
  const scale = window.devicePixelRatio || 1;
  canvas.width = Math.round(wide * scale);
  canvas.height = Math.round(high * scale);
  canvas.style.width = `${wide}px`;
  canvas.style.height = `${high}px`;
  const pen = canvas.getContext("2d");
  pen.setTransform(scale, 0, 0, scale, 0, 0);
  pen.font = font(letters);
  return pen;
}

class LaneDrawing {
  constructor(canvas) { this.canvas = canvas; this.still = document.createElement("canvas"); }

  fit(wide, shot) {
    this.shot = shot;
    this.wide = wide;
    this.high = Math.max(150, Math.min(230, wide * 0.2));
    this.letters = lettersIn(this.canvas.parentElement);
    this.left = LEFT_LETTERS * this.letters;
    this.foot = FOOT_LETTERS * this.letters;
    this.pen = sized(this.canvas, wide, this.high, this.letters);
    this.drawStill(sized(this.still, wide, this.high, this.letters));
  }

  x(ft) { return this.left + (ft / this.shot.lane.end_ft) * (this.wide - this.left - RIGHT); }

  y(board) { // board 1 below for a right-hander, above for a left-hander
    const { boards, gutter } = this.shot.lane;
    const share = (board - 0.5 + gutter) / (boards + 2 * gutter);
    const up = this.shot.hand === "right" ? share : 1 - share;
    return TOP + (1 - up) * (this.high - TOP - this.foot);
  }

  drawStill(pen) {
    const { shot } = this, { lane, looks } = shot;
    pen.fillStyle = looks.paper;
    pen.fillRect(0, 0, this.wide, this.high);
    const box = (colour, low, high, from, to) => {
      pen.fillStyle = colour;
      const [a, b] = [this.y(low), this.y(high)];
      pen.fillRect(this.x(from), Math.min(a, b), this.x(to) - this.x(from), Math.abs(b - a));
    };
    const edge = [0.5, lane.boards + 0.5];
    box(looks.gutter, edge[0] - lane.gutter, edge[1] + lane.gutter, 0, lane.end_ft);
    box(looks.wood, ...edge, 0, lane.end_ft);
    this.drawOil(pen, edge);
    for (const board of lane.seams) box(looks.seam, board - 0.06, board + 0.06, 0, lane.end_ft);
    pen.fillStyle = looks.ink;
    pen.fillRect(this.x(0) - 1.5, this.y(20) - Math.abs(this.y(edge[1]) - this.y(20)), 3,
      Math.abs(this.y(edge[1]) - this.y(edge[0])));
    pen.fillStyle = looks.muted;
    for (const [board, ft] of lane.arrows) {
      pen.beginPath();
      pen.moveTo(this.x(ft) + 5, this.y(board));
      pen.lineTo(this.x(ft) - 4, this.y(board) - 4);
      pen.lineTo(this.x(ft) - 4, this.y(board) + 4);
      pen.fill();
    }
    for (const [board, ft] of lane.pins) this.disc(pen, this.x(ft), this.y(board), 3.5, looks.pin,
      looks.ink, 1);
    this.drawScales(pen);
    for (const ball of shot.balls) this.drawPath(pen, ball, Infinity, 0.45, 1.6);
    for (const ball of shot.balls) this.drawChanges(pen, ball);
  }

  drawOil(pen, edge) {
    const { shot } = this, feet = shot.oil.feet;
    const small = document.createElement("canvas");
    [small.width, small.height] = [feet, shot.lane.boards];
    const { buffer, byteOffset, byteLength } = shot.oil.rgba;
    const image = new ImageData(
      new Uint8ClampedArray(buffer.slice(byteOffset, byteOffset + byteLength)), feet);
    small.getContext("2d").putImageData(image, 0, 0);
    const top = Math.min(this.y(edge[0]), this.y(edge[1]));
    pen.save();
    pen.beginPath();
    pen.rect(this.x(0), top, this.x(60) - this.x(0), Math.abs(this.y(edge[1]) - this.y(edge[0])));
    pen.clip();
    pen.drawImage(small, this.x(-0.5), top, this.x(feet - 0.5) - this.x(-0.5),
      Math.abs(this.y(edge[1]) - this.y(edge[0])));
    pen.restore();
  }

  drawScales(pen) {
    const { lane, looks } = this.shot;
    pen.fillStyle = looks.muted;
    pen.textBaseline = "middle";
    pen.textAlign = "right";
    for (const board of lane.seams) if (board % 10 === 0) {
      pen.fillText(`${board === 20 ? "board " : ""}${board}`, this.left - 6, this.y(board));
    }
    pen.textAlign = "center";
    for (let ft = 10; ft <= 60; ft += 10) pen.fillText(`${ft} ft`, this.x(ft), this.high - 0.4 * this.foot);
    pen.fillText("foul line", this.x(0), this.high - 0.4 * this.foot);
  }

  disc(pen, x, y, radius, face, edge, width) {
    pen.beginPath();
    pen.arc(x, y, radius, 0, 2 * Math.PI);
    pen.fillStyle = face;
    pen.fill();
    pen.strokeStyle = edge;
    pen.lineWidth = width;
    pen.stroke();
  }

  drawPath(pen, ball, time, alpha, width) {
    pen.save();
    pen.globalAlpha = alpha;
    pen.strokeStyle = ball.colour;
    pen.lineWidth = width;
    pen.setLineDash(ball.dash.map((part) => part * 2.4));
    pen.beginPath();
    const step = ball.end_s / (ball.count - 1);
    for (let i = 0; i < ball.count && i * step <= time; i++) {
      pen.lineTo(this.x(ball.frames[i * COLUMNS + 1]), this.y(ball.frames[i * COLUMNS]));
    }
    if (time < ball.end_s) {
      const now = at(ball, time);
      pen.lineTo(this.x(now[1]), this.y(now[0]));
    }
    pen.stroke();
    pen.restore();
  }

  drawChanges(pen, ball) { // square: half of the slip has gone; circle: rolls
    for (const [time, square] of [[ball.hook_s, true], [ball.roll_s, false]]) {
      if (time === null) continue;
      const now = at(ball, time), half = ball.mark;
      const [x, y] = [this.x(now[1]), this.y(now[0])];
      if (!square) this.disc(pen, x, y, half, ball.face, ball.colour, 1.8);
      else {
        pen.fillStyle = ball.face;
        pen.fillRect(x - half, y - half, 2 * half, 2 * half);
        pen.strokeStyle = ball.colour;
        pen.lineWidth = 1.8;
        pen.strokeRect(x - half, y - half, 2 * half, 2 * half);
      }
    }
  }

  draw(time) {
    const { pen, shot } = this;
    pen.drawImage(this.still, 0, 0, this.wide, this.high);
    const places = shot.balls.map((ball) => {
      const now = at(ball, time);
      return [this.x(now[1]), this.y(now[0])];
    });
    for (const ball of shot.balls) this.drawPath(pen, ball, time, 1, 3);
    pen.font = font(this.letters, "bold");
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    for (const [i, ball] of [...shot.balls.entries()].reverse()) {
      const [x, y] = places[i], other = places[1 - i];
      this.disc(pen, x, y, ball.label === "A" ? 6 : 9, ball.face, ball.colour, 2.5);
      // the letter keeps away from the other ball
      const above = !other || (y === other[1] ? i === 0 : y < other[1]);
      pen.fillStyle = ball.words;
      pen.fillText(ball.label, x, y + (above ? -1 : 1) * (11 + 0.6 * this.letters));
    }
  }
}
