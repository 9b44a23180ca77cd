// The tag's picture: zoomed, turned, moved, with the doubtful words lit on it.

const SVG = "http://www.w3.org/2000/svg";
const CLOSEST = 12;
const WORD_HEIGHTS = 9; // how many of a word's heights are shown around it

function svg(name, attributes = {}) {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  return node;
}

const points = (quad) => quad.map(([x, y]) => `${x},${y}`).join(" ");
const middle = (quad) => [0, 1].map((axis) => quad.reduce((sum, corner) => sum + corner[axis], 0) / 4);
const length = ([ax, ay], [bx, by]) => Math.hypot(bx - ax, by - ay);
const heightOf = (quad) => Math.max(length(quad[0], quad[3]), 1);
const clamp = (value, low, high) => Math.min(Math.max(value, low), high);

/** A place with some room around it, so that what marks it does not cover the print; more
    along the line, where readers place letters only roughly. */
function widened(quad) {
  const [beside, above] = [heightOf(quad) * 0.3, heightOf(quad) * 0.16];
  const [cx, cy] = middle(quad);
  const across = length(quad[0], quad[1]) || 1;
  const [ux, uy] = [(quad[1][0] - quad[0][0]) / across, (quad[1][1] - quad[0][1]) / across];
  return quad.map(([x, y], at) => {
    const right = at === 1 || at === 2 ? beside : -beside;
    const down = at >= 2 ? above : -above;
    return [x + ux * right - uy * down, y + uy * right + ux * down];
  });
}

/** What a zoom centres on: the middle of all places, and the height of the largest. */
function target(places) {
  if (!places.length) return null;
  const centres = places.map(middle);
  const mean = (axis) => centres.reduce((sum, centre) => sum + centre[axis], 0) / centres.length;
  return { x: mean(0), y: mean(1), height: Math.max(...places.map(heightOf)) };
}

export class Viewer {
  constructor(node) {
    this.node = node;
    this.turned = svg("g");
    this.image = svg("image");
    this.dark = svg("path", { class: "dimmed", "fill-rule": "evenodd" });
    this.lit = svg("g");
    this.turned.append(this.image, this.dark, this.lit);
    node.append(this.turned);
    this.pointers = new Map();
    node.addEventListener("wheel", (event) => this.wheeled(event), { passive: false });
    node.addEventListener("pointerdown", (event) => this.pressed(event));
    node.addEventListener("pointermove", (event) => this.moved(event));
    for (const name of ["pointerup", "pointercancel", "pointerleave"]) {
      node.addEventListener(name, (event) => this.pointers.delete(event.pointerId));
    }
  }

  /** Show a picture of so many pixels, with `places` lit on it. */
  show(href, width, height, places) {
    if (this.href !== href) {
      this.href = href;
      [this.width, this.height] = [width || 1, height || 1];
      this.image.setAttribute("href", href);
      this.image.setAttribute("width", this.width);
      this.image.setAttribute("height", this.height);
      this.quarters = 0;
      this.whole();
    }
    this.light(places);
    if (this.zoom > 1) this.toPlace();
  }

  light(places) {
    this.places = places;
    const frame = `M0 0H${this.width}V${this.height}H0Z`;
    const holes = places.map((quad) => `M${points(widened(quad)).replaceAll(" ", "L")}Z`);
    this.dark.setAttribute("d", places.length ? frame + holes.join("") : "");
    this.lit.replaceChildren(
      ...places.flatMap((quad) =>
        ["halo", "ring"].map((name) => svg("polygon", { class: name, points: points(widened(quad)) })),
      ),
    );
  }

  /** The size of the picture as it is turned. */
  get size() {
    return this.quarters % 2 ? [this.height, this.width] : [this.width, this.height];
  }

  whole() {
    this.zoom = 1;
    this.centre = this.size.map((side) => side / 2);
    this.draw();
  }

  /** Close to the doubtful words; back to the whole where it is close already. */
  toggle() {
    if (this.zoom > 1) this.whole();
    else this.toPlace();
  }

  toPlace() {
    const place = target(this.places);
    const shown = place ? place.height * WORD_HEIGHTS : 0;
    this.zoom = clamp(place ? Math.min(...this.size) / shown : 2.5, 1.6, CLOSEST);
    if (place) this.centre = this.asTurned(place.x, place.y);
    this.draw();
  }

  closer(factor) {
    this.zoom = clamp(this.zoom * factor, 1, CLOSEST);
    this.draw();
  }

  /** Move by shares of what is shown. */
  move(right, down) {
    const [width, height] = this.size;
    this.centre[0] += (right * width) / this.zoom;
    this.centre[1] += (down * height) / this.zoom;
    this.draw();
  }

  turn(quarters) {
    this.quarters = (this.quarters + quarters + 4) % 4;
    const close = this.zoom > 1;
    this.whole();
    if (close) this.toPlace();
  }

  asTurned(x, y) {
    return [
      [x, y],
      [this.height - y, x],
      [this.width - x, this.height - y],
      [y, this.width - x],
    ][this.quarters];
  }

  draw() {
    const [width, height] = this.size;
    const shown = [width / this.zoom, height / this.zoom];
    this.centre = this.centre.map((at, axis) =>
      clamp(at, shown[axis] / 2, [width, height][axis] - shown[axis] / 2),
    );
    const [left, top] = this.centre.map((at, axis) => at - shown[axis] / 2);
    this.node.setAttribute("viewBox", `${left} ${top} ${shown[0]} ${shown[1]}`);
    const shift = [[0, 0], [this.height, 0], [this.width, this.height], [0, this.width]][this.quarters];
    this.turned.setAttribute("transform", `translate(${shift}) rotate(${this.quarters * 90})`);
    this.node.classList.toggle("close", this.zoom > 1);
    // Rings stay as thick on the screen, however close the picture is.
    const box = this.node.getBoundingClientRect();
    const scale = Math.max(shown[0] / (box.width || 1), shown[1] / (box.height || 1));
    this.lit.setAttribute("stroke-width", 3 * scale);
    this.lit.querySelectorAll(".halo").forEach((halo) => halo.setAttribute("stroke-width", 7 * scale));
    this.perPixel = scale;
  }

  wheeled(event) {
    event.preventDefault();
    this.closer(event.deltaY < 0 ? 1.2 : 1 / 1.2);
  }

  pressed(event) {
    this.pointers.set(event.pointerId, [event.clientX, event.clientY]);
    if (this.zoom > 1) this.node.setPointerCapture(event.pointerId);
  }

  moved(event) {
    const before = this.pointers.get(event.pointerId);
    if (!before) return;
    const now = [event.clientX, event.clientY];
    if (this.pointers.size === 2) {
      const [other] = [...this.pointers].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
      this.closer(length(now, other) / (length(before, other) || 1));
    } else if (this.zoom > 1) {
      this.centre[0] -= (now[0] - before[0]) * this.perPixel;
      this.centre[1] -= (now[1] - before[1]) * this.perPixel;
      this.draw();
    }
    this.pointers.set(event.pointerId, now);
  }
}

/** A picture of one place, level, with a rule under it and a little of what is around. */
export function closeUp(href, width, height, quad) {
  const [cx, cy] = middle(quad);
  const across = length(quad[0], quad[1]);
  const tall = heightOf(quad);
  const angle = (Math.atan2(quad[1][1] - quad[0][1], quad[1][0] - quad[0][0]) * 180) / Math.PI;
  const shownWidth = Math.max(across * 1.3, across + 3 * tall);
  const shownHeight = tall * 1.7;
  const node = svg("svg", {
    class: "close-up",
    viewBox: `${cx - shownWidth / 2} ${cy - shownHeight / 2} ${shownWidth} ${shownHeight}`,
    role: "img",
    "aria-label": "The doubtful word, enlarged",
  });
  const level = svg("g", { transform: `rotate(${-angle} ${cx} ${cy})` });
  level.append(svg("image", { href, width: width || 1, height: height || 1 }));
  const under = cy + tall * 0.7;
  const rule = across + tall * 0.5;
  const d = `M${cx - rule / 2} ${under - tall * 0.09}v${tall * 0.09}h${rule}v${-tall * 0.09}`;
  node.append(
    level,
    svg("path", { class: "halo", d, "stroke-width": tall * 0.1 }),
    svg("path", { class: "ring", d, "stroke-width": tall * 0.05 }),
  );
  return node;
}
