// <gamut-solid src="URL"><canvas></canvas></gamut-solid>: turns a solid of coloured triangles, far ones drawn first.
// URL answers with rows of L* a* b* of three corners, then red, green, blue.
customElements.define("gamut-solid", class extends HTMLElement {
  async connectedCallback() {
    this.canvas = this.querySelector("canvas");
    [this.turn, this.tilt] = [0.6, 0.35];
    const answer = await fetch(this.getAttribute("src"));
    if (!answer.ok) {
      return;
    }
    this.rows = await answer.json();
    const far = Math.max(...this.rows.flatMap((r) => [0, 3, 6].map((i) => Math.hypot(r[i] - 50, r[i + 1], r[i + 2]))));
    this.scale = 0.48 * Math.min(this.canvas.width, this.canvas.height) / far;
    this.canvas.addEventListener("pointerdown", (e) => { this.from = [e.clientX, e.clientY]; this.canvas.setPointerCapture(e.pointerId); });
    this.canvas.addEventListener("pointerup", () => { this.from = null; });
    this.canvas.addEventListener("pointermove", (e) => {
      if (this.from) {
        this.move((e.clientX - this.from[0]) / 120, (e.clientY - this.from[1]) / 120);
        this.from = [e.clientX, e.clientY];
      }
    });
    this.canvas.addEventListener("keydown", (e) => {
      const step = { ArrowLeft: [-0.1, 0], ArrowRight: [0.1, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] }[e.key];
      if (step) {
        e.preventDefault();
        this.move(...step);
      }
    });
    this.draw();
  }

  move(turn, tilt) {
    this.turn += turn;
    this.tilt = Math.max(-1.5, Math.min(1.5, this.tilt + tilt));
    cancelAnimationFrame(this.frame);
    this.frame = requestAnimationFrame(() => this.draw());
  }

  draw() {
    const at = this.canvas.getContext("2d");
    const { width, height } = this.canvas;
    const [st, ct, sp, cp] = [Math.sin(this.turn), Math.cos(this.turn), Math.sin(this.tilt), Math.cos(this.tilt)];
    const place = (l, a, b) => {
      const [x, y, z] = [a * ct - b * st, a * st + b * ct, l - 50];
      return [width / 2 + this.scale * x, height / 2 - this.scale * (z * cp - y * sp), y * cp + z * sp];
    };
    const faces = this.rows.map((r) => {
      const corners = [place(r[0], r[1], r[2]), place(r[3], r[4], r[5]), place(r[6], r[7], r[8])];
      return { corners, depth: corners[0][2] + corners[1][2] + corners[2][2], ink: `rgb(${r[9]} ${r[10]} ${r[11]})` };
    });
    faces.sort((p, q) => q.depth - p.depth);
    at.clearRect(0, 0, width, height);
    for (const { corners, ink } of faces) {
      at.beginPath();
      corners.forEach(([x, y], i) => { if (i) { at.lineTo(x, y); } else { at.moveTo(x, y); } });
      at.closePath();
      at.fillStyle = at.strokeStyle = ink;
      at.fill();
      at.stroke();
    }
  }
});
