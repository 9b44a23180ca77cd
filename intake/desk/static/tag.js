// The tag that is asked about: its questions, and what was answered so far.

import { draftOf, dropDraft, keepDraft } from "./drafts.js";

const JOINED = ""; // stands among the fields of the step that joined another side

export class Tag {
  /** `view` is what the desk told of the tag, `other` of its other side where it is joined. */
  constructor(view, other = null) {
    this.view = view;
    this.draft = draftOf(view.id);
    this.further = []; // questions that the answers raised
    this.other = other;
  }

  get id() {
    return this.view.id;
  }

  /** All questions: the tag's own, those of its other side, and those that answers raised. */
  get questions() {
    const side = this.other ? this.askedOf(this.other) : [];
    const there = new Set(side.map((doubt) => doubt.field));
    const here = this.view.doubts.filter((doubt) => !there.has(doubt.field));
    return [...here, ...side, ...this.further];
  }

  /** The question that is open; undefined where all are answered. */
  get open() {
    return this.questions.find((doubt) => !(doubt.field in this.draft.answers));
  }

  isAsked(field) {
    return this.questions.some((doubt) => doubt.field === field);
  }

  /** All fields, those that are asked about first. */
  get fields() {
    return [...this.view.doubts, ...this.view.fields];
  }

  /** What the other side is asked about where this one carries nothing. */
  askedOf(other) {
    const lacking = this.lacking();
    return other.doubts
      .filter((doubt) => lacking.has(doubt.field))
      .map((doubt) => ({ ...doubt, of: other }));
  }

  lacking() {
    return new Set(this.fields.filter((field) => !field.value).map((field) => field.field));
  }

  /** Drop answers to what is not asked any more: it was answered for many tags meanwhile. */
  dropStale() {
    const stale = (fields) =>
      !fields.includes(JOINED) && !fields.some((field) => this.isAsked(field));
    for (const fields of this.draft.steps.filter(stale)) {
      for (const field of fields) delete this.draft.answers[field];
    }
    this.draft.steps = this.draft.steps.filter((fields) => !stale(fields));
  }

  answer(texts) {
    for (const field of Object.keys(texts)) delete this.draft.typed[field];
    Object.assign(this.draft.answers, texts);
    this.draft.steps.push(Object.keys(texts));
    this.keep();
  }

  /** Correct a field that nothing is asked about. */
  correct(field, text) {
    const read = this.view.fields.find((each) => each.field === field).value;
    delete this.draft.typed[field];
    if (text === read) delete this.draft.answers[field];
    else this.draft.answers[field] = text;
    this.keep();
  }

  type(text) {
    this.draft.typed[this.open.field] = text;
    this.keep();
  }

  giveUpTyping() {
    delete this.draft.typed[this.open.field];
    this.keep();
  }

  /** Take back the last step, or the one that answered `field`; its text is typed again.
      False where there is none. */
  retract(field) {
    const { steps, answers, typed } = this.draft;
    const place = field ? steps.findLastIndex((fields) => fields.includes(field)) : steps.length - 1;
    if (place < 0) return false;
    const [fields] = steps.splice(place, 1);
    if (fields.includes(JOINED)) this.part();
    for (const name of fields) {
      if (this.isAsked(name)) typed[name] = answers[name];
      delete answers[name];
    }
    this.further = [];
    this.keep();
    return true;
  }

  /** A value that its field cannot hold: it is there to be typed anew. */
  refuse(field) {
    const text = this.draft.answers[field];
    this.retract(field);
    delete this.draft.answers[field];
    this.draft.typed[field] = text;
    this.keep();
  }

  /** Take over what only the other side says, as a step with the answers `said`.  Returns how
      many values that gave. */
  join(other, said = {}) {
    const lacking = this.lacking();
    const found = other.fields.filter(({ field, state }) => lacking.has(field) && state === "sure");
    this.other = other;
    this.draft.joined = other.id;
    const values = Object.fromEntries(found.map(({ field, value }) => [field, value]));
    this.answer({ ...said, ...values });
    this.draft.steps.at(-1).push(JOINED);
    this.keep();
    return found.length;
  }

  part() {
    this.other = null;
    this.draft.joined = "";
  }

  /** What the desk is told. */
  get told() {
    const { answers, joined } = this.draft;
    return { answers, joined, more: Boolean(this.open) };
  }

  keep() {
    keepDraft(this.id, this.draft);
  }

  drop() {
    dropDraft(this.id);
  }
}
