// The tags that wait, in the order of asking, and the way that was gone through them.

/** The ids of the tags that wait.  Those before the place where the asking is were skipped. */
export class Waiting {
  constructor() {
    this.ids = [];
    this.at = 0;
  }

  /** The tag that is asked about; undefined where all were gone through. */
  get id() {
    return this.ids[this.at];
  }

  get count() {
    return this.ids.length;
  }

  /** The tags that come next. */
  ahead(count) {
    return this.ids.slice(this.at + 1, this.at + 1 + count);
  }

  /** The tags around this one, without it. */
  around(before, behind) {
    const near = this.ids.slice(Math.max(this.at - before, 0), this.at + behind);
    return near.filter((id) => id !== this.id);
  }

  skip() {
    this.at += 1;
  }

  fromStart() {
    this.at = 0;
  }

  remove(id) {
    const place = this.ids.indexOf(id);
    if (place < 0) return;
    this.ids.splice(place, 1);
    if (place < this.at) this.at -= 1;
  }

  /** Ask about these tags next. */
  next(ids) {
    ids.forEach((id) => this.remove(id));
    this.ids.splice(this.at, 0, ...ids);
  }

  /** Go back to a tag that was skipped; it may be gone. */
  goTo(id) {
    const place = this.ids.indexOf(id);
    if (place >= 0) this.at = place;
  }

  /** Take in what came and what was settled elsewhere, by the ids that wait `now`. */
  refresh(now) {
    const before = new Set(this.ids);
    const still = new Set(now);
    this.ids.filter((id) => !still.has(id)).forEach((id) => this.remove(id));
    this.ids.push(...now.filter((id) => !before.has(id)));
  }
}

const KEPT_AS = "desk-trail";
const LONGEST = 500;

/** The steps of this window, to go back on; the desk itself knows those of earlier ones. */
export class Trail {
  constructor() {
    this.steps = JSON.parse(sessionStorage.getItem(KEPT_AS) || "[]");
  }

  push(step) {
    this.steps = [...this.steps, step].slice(-LONGEST);
    this.keep();
  }

  pop() {
    const step = this.steps.pop();
    this.keep();
    return step;
  }

  keep() {
    sessionStorage.setItem(KEPT_AS, JSON.stringify(this.steps));
  }
}
