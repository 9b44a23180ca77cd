// The review: one doubtful tag at a time, answered with one key where that is enough.

import { Lost, Refused, ask, askUntilAnswered, say } from "./desk.js";
import { draft, drop, keep } from "./drafts.js";
import { closeUp, Viewer } from "./viewer.js";
import { openJoin } from "./join.js";
import { openSplit } from "./split.js";

const AHEAD = 2; // tags that are fetched before they are asked for
const LOOK_AGAIN_MS = 20000; // how often the list of waiting tags is asked for anew
const MOST_CHOICES = 9;
const OFFERS_AFTER_MS = 1500;
const LEARNT = ["maker", "range", "shade"];
const STEP = 0.25; // share of the picture by which an arrow key moves it

const by = (id) => document.getElementById(id);
const viewer = new Viewer(by("picture"));
const pictureOf = (id) => `/tags/${id}.jpg`;

let ids = []; // what waits, in the order of asking
let at = 0;
let trail = JSON.parse(sessionStorage.getItem("desk-trail") || "[]");
let current = null; // { view, draft, further, side }
let busy = false;
const views = new Map();
let offers = {}; // what was learnt since the tags were read, by tag and field
let offersAsked = 0;

// ---- What is asked

/** All questions about the tag on show: its own, those of its other side, and those that
    the answers raised. */
function questions() {
  const { view, side, further } = current;
  const there = new Set(side.map((doubt) => doubt.field));
  const here = view.doubts.filter((doubt) => !there.has(doubt.field));
  return [...here, ...side, ...further];
}

const answered = (doubt) => doubt.field in current.draft.answers;
const open = () => questions().find((doubt) => !answered(doubt));

function sideQuestions(view, other) {
  const own = new Map([...view.fields, ...view.doubts].map((field) => [field.field, field]));
  return other.doubts
    .filter((doubt) => own.has(doubt.field) && !own.get(doubt.field).value)
    .map((doubt) => ({ ...doubt, picture: other }));
}

// ---- Fetching ahead

function fetchView(id) {
  if (!views.has(id)) {
    const coming = ask(`/review/tags/${id}`);
    coming.catch(() => views.delete(id));
    views.set(id, coming);
  }
  return views.get(id);
}

async function decoded(id) {
  const picture = new Image();
  picture.src = pictureOf(id);
  await picture.decode().catch(() => {}); // a picture that was taken away leaves the mat empty
}

function fetchAhead() {
  for (const id of ids.slice(at + 1, at + 1 + AHEAD)) {
    fetchView(id).catch(() => {});
    decoded(id);
  }
  const near = new Set(ids.slice(Math.max(at - AHEAD, 0), at + 1 + AHEAD));
  for (const id of views.keys()) if (!near.has(id)) views.delete(id);
}

/** Ask what was learnt, once no answer came for a while: it is not worth a wait. */
function lookForOffers() {
  clearTimeout(offersAsked);
  offersAsked = setTimeout(async () => {
    offers = await ask("/alike/offers").catch(() => offers);
    if (current && !busy && open()) showChoices(open());
  }, OFFERS_AFTER_MS);
}

// ---- Going through the tags

async function showTag() {
  if (at >= ids.length) return showEmpty();
  const id = ids[at];
  let view;
  try {
    view = await fetchView(id).catch((error) => {
      if (!(error instanceof Lost)) throw error;
      return askUntilAnswered(`/review/tags/${id}`, undefined, showLost);
    });
  } catch (error) {
    return pass(id, error);
  }
  current = { view, draft: draft(id), further: [], side: [] };
  await rejoin();
  by("empty").hidden = true;
  by("work").hidden = false;
  by("others").open = false;
  fillOthers();
  fetchAhead();
  if (open()) showQuestion();
  else await submit(); // answered before, but the desk never confirmed it
}

/** A tag that cannot be shown: settled in another window, or spoilt. */
function pass(id, error) {
  if (error.kind === "NotWaiting") {
    drop(id);
    tell("That tag was answered in another window. Here is the next one.");
  } else {
    tell(error.message);
  }
  ids.splice(at, 1);
  views.delete(id);
  return showTag();
}

function showEmpty() {
  current = null;
  by("work").hidden = true;
  by("empty").hidden = false;
  by("empty-words").textContent = ids.length ? "Only skipped tags wait" : "Nothing waits";
  by("again").hidden = !ids.length;
  document.body.dataset.shown = "nothing";
  by("empty-words").focus();
  showTally();
}

function leave(how) {
  const { view, draft: kept } = current;
  trail.push({ id: view.id, how, draft: kept });
  keepTrail();
  drop(view.id);
  views.delete(view.id);
  if (how === "skipped") {
    keep(view.id, kept);
    at += 1;
  } else {
    ids.splice(at, 1);
    if (kept.joined) ids = ids.filter((id) => id !== kept.joined);
  }
  return showTag();
}

const keepTrail = () => sessionStorage.setItem("desk-trail", JSON.stringify(trail.slice(-500)));

// ---- Answering

function take(text) {
  const doubt = open();
  const typed = text.trim();
  if (doubt.only_candidates && !doubt.candidates.includes(typed)) {
    return trouble(`Choose ${doubt.candidates.map((_, place) => place + 1).join(" or ")}.`);
  }
  if (!typed) return trouble("Type it, or press N where it is not on the tag.");
  const asRead = typed === doubt.value && !doubt.picture;
  return answer({ [doubt.field]: asRead ? null : typed });
}

function answer(texts) {
  const kept = current.draft;
  const asked = open().field;
  Object.assign(kept.answers, texts);
  kept.order.push(Object.keys(texts));
  if (asked in texts) delete kept.typed[asked];
  keep(current.view.id, kept);
  return submit();
}

/** Send all answers so far; ask on, or leave the tag once it is filed. */
function submit() {
  const { view, draft: kept } = current;
  const body = { answers: kept.answers, joined: kept.joined, more: Boolean(open()) };
  return working(async () => {
    const result = await askUntilAnswered(`/review/tags/${view.id}/answers`, body, showLost);
    if (result.state === "refused") return refuse(result);
    if (result.state === "asked") current.further = result.doubts;
    if (result.state === "open" || result.state === "asked") return showQuestion();
    tell(result.said);
    if (questions().some((doubt) => LEARNT.includes(doubt.field))) lookForOffers();
    return leave(result.state);
  });
}

/** A value that its field cannot hold: the question comes again with what was typed. */
function refuse({ field, message }) {
  const kept = current.draft;
  kept.typed[field] = kept.answers[field] ?? "";
  takeBack(kept.order.findLastIndex((fields) => fields.includes(field)));
  delete kept.answers[field];
  keep(current.view.id, kept);
  fillOthers();
  if (open()) showQuestion();
  trouble(message);
  if (!questions().some((doubt) => doubt.field === field)) by("others").open = true;
}

function takeBack(place) {
  if (place < 0) return;
  const [fields] = current.draft.order.splice(place, 1);
  for (const field of fields) delete current.draft.answers[field];
}

/** Do what waits for the desk.  Keys pressed meanwhile do nothing: they must not answer a
    question that was not on show yet. */
async function working(work) {
  if (busy) return;
  setBusy(true);
  try {
    await work();
  } catch (error) {
    if (error instanceof Refused && error.kind === "NotWaiting") await pass(current.view.id, error);
    else if (error instanceof Refused) {
      takeBack(current ? current.draft.order.length - 1 : -1);
      if (current && open()) showQuestion();
      trouble(error.message);
    } else throw error;
  } finally {
    setBusy(false);
  }
}

function setBusy(is) {
  busy = is;
  by("main").setAttribute("aria-busy", is);
}

// ---- Going back

function back() {
  const kept = current?.draft;
  if (kept?.order.length) {
    const fields = kept.order[kept.order.length - 1];
    const field = fields.find((name) => questions().some((doubt) => doubt.field === name));
    if (field) kept.typed[field] = kept.answers[field] ?? "";
    takeBack(kept.order.length - 1);
    if (fields.includes("")) kept.joined = "";
    keep(current.view.id, kept);
    views.delete(current.view.id);
    return working(showTag);
  }
  return working(async () => {
    const last = trail.pop();
    keepTrail();
    if (last?.how === "skipped") {
      const place = ids.indexOf(last.id);
      at = place < 0 ? at : place;
      return showTag();
    }
    const { tags } = await askUntilAnswered("/review/back", { tag: last?.id ?? "" }, showLost);
    const again = Object.keys(tags);
    if (!again.length) {
      if (last) return backUnlessFirst(); // settled otherwise meanwhile: the step before it
      return tell("This is the first step; there is nothing before it.");
    }
    ids = ids.filter((id) => !again.includes(id));
    ids.splice(at, 0, ...again);
    for (const id of again) await reopen(id, tags[id], last?.id === id ? last.draft : null);
    tell(again.length > 1 ? `${again.length} tags wait again.` : "Taken back: this tag waits again.");
    return showTag();
  });
}

const backUnlessFirst = () => {
  setBusy(false);
  return back();
};

/** Ask on where the tag was left: all its answers but the last stand. */
async function reopen(id, given, before) {
  views.delete(id);
  const view = await fetchView(id);
  const kept = before ?? { ...draft("none"), answers: {}, order: [] };
  if (!before) {
    for (const { field } of view.doubts) {
      if (!(field in given)) continue;
      kept.answers[field] = given[field];
      kept.order.push([field]);
    }
  }
  kept.joined = "";
  const last = kept.order.pop() ?? [];
  for (const field of last) {
    if (kept.answers[field] != null) kept.typed[field] = kept.answers[field];
    delete kept.answers[field];
  }
  keep(id, kept);
}

// ---- Joining with the other side

async function rejoin() {
  const { view, draft: kept } = current;
  if (!kept.joined) return;
  try {
    current.side = sideQuestions(view, await fetchView(kept.joined));
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    kept.joined = ""; // it was settled meanwhile
  }
}

/** Take over what only the other side says; its doubts are asked here. */
async function joinSide(id) {
  const other = await fetchView(id);
  const { view, draft: kept } = current;
  const lacking = [...view.fields, ...view.doubts].filter((field) => !field.value);
  const names = new Set(lacking.map((field) => field.field));
  const found = other.fields.filter((field) => names.has(field.field) && field.state === "sure");
  const texts = Object.fromEntries(found.map((field) => [field.field, field.value]));
  kept.joined = id;
  Object.assign(kept.answers, texts);
  kept.order.push([...Object.keys(texts), ""]);
  keep(view.id, kept);
  current.side = sideQuestions(view, other);
  fillOthers();
  tell(`Joined; ${found.length} values came from the other side.`);
  return submit();
}

// ---- What is shown

function showQuestion() {
  const doubt = open();
  const { view, draft: kept } = current;
  const shown = doubt.picture ?? view;
  const all = questions();
  by("steps").textContent =
    all.length > 1 ? `Question ${all.indexOf(doubt) + 1} of ${all.length} about this tag` : "";
  by("asked").textContent = doubt.question;
  by("reason").textContent = doubt.reason;
  by("source").textContent = shown.source;
  by("source").title = shown.picture;
  trouble("");
  viewer.show(pictureOf(shown.id), shown.width_px, shown.height_px, doubt.places);
  showCloseUps(doubt, shown);
  showSeen(doubt);
  showChoices(doubt);
  showTyping(doubt, kept);
  showNotes(shown);
  showTally();
  by("asked").focus({ preventScroll: true });
  window.scrollTo(0, 0);
  decoded(shown.id).then(() => {
    document.body.dataset.shown = `${view.id}/${doubt.field}`;
  });
}

function showCloseUps(doubt, shown) {
  const href = pictureOf(shown.id);
  const pieces = doubt.places.map((quad) => closeUp(href, shown.width_px, shown.height_px, quad));
  if (doubt.earlier) pieces.push(...[shown.id, doubt.earlier].map(picturedTag));
  by("close-ups").replaceChildren(...pieces);
  by("close-ups").hidden = !pieces.length;
}

function picturedTag(id, place) {
  const figure = document.createElement("figure");
  const picture = new Image();
  picture.src = pictureOf(id);
  picture.alt = "";
  const words = document.createElement("figcaption");
  words.textContent = place ? "the one from before" : "this one";
  figure.append(picture, words);
  return figure;
}

function showSeen(doubt) {
  const rows = doubt.seen.flat().map(({ reader, before, word, after, differs }) => {
    const row = document.createElement("tr");
    const name = document.createElement("th");
    name.scope = "row";
    name.textContent = reader;
    const cell = document.createElement("td");
    cell.className = "print";
    const strong = document.createElement("strong");
    [...word].forEach((letter, place) => {
      const node = document.createElement(differs.includes(place) ? "mark" : "span");
      node.textContent = letter;
      strong.append(node);
    });
    cell.append(before, strong, after);
    row.append(name, cell);
    return row;
  });
  by("seen").tBodies[0].replaceChildren(...rows);
  by("seen").hidden = !rows.length;
}

/** The answers that have a key: what was read and its like, then what was learnt since. */
function choicesFor(doubt) {
  const choices = doubt.candidates.map((text) => ({ text, why: text === doubt.value ? "as read" : "" }));
  const offer = offers[(doubt.picture ?? current.view).id]?.[doubt.field];
  if (offer && !doubt.candidates.includes(offer.new)) choices.push({ text: offer.new, why: offer.why });
  return choices.slice(0, MOST_CHOICES);
}

function showChoices(doubt) {
  const choices = choicesFor(doubt).map(({ text, why }, place) => {
    const item = by("choice-form").content.cloneNode(true);
    const button = item.querySelector("button");
    button.dataset.choice = place;
    item.querySelector("kbd").textContent = place + 1;
    item.querySelector("span").textContent = text;
    item.querySelector("small").textContent = why;
    return item;
  });
  by("choices").replaceChildren(...choices);
  by("choices").hidden = !choices.length;
}

function showTyping(doubt, kept) {
  by("typing").hidden = doubt.only_candidates;
  document.querySelector('[data-does="none"]').disabled = doubt.only_candidates;
  by("typed").value = kept.typed[doubt.field] ?? doubt.value;
}

function showNotes(shown) {
  const notes = shown.notes.map((note) => {
    const item = document.createElement("li");
    item.textContent = note;
    return item;
  });
  by("notes").replaceChildren(...notes);
}

function fillOthers() {
  const { view, draft: kept } = current;
  const rows = view.fields.map((field) => {
    const row = by("other-form").content.cloneNode(true);
    const [label, input] = [row.querySelector("label"), row.querySelector("input")];
    input.id = `other-${field.field}`;
    input.dataset.field = field.field;
    input.value = kept.typed[field.field] ?? kept.answers[field.field] ?? field.value;
    label.htmlFor = input.id;
    label.textContent = field.spoken;
    markChanged(row.querySelector(".mark-changed"), field, input.value);
    return row;
  });
  by("others-rows").replaceChildren(...rows);
  const sure = view.fields.filter((field) => field.value).length;
  by("others-words").textContent = `The rest of the tag: ${sure} sure`;
}

function markChanged(cell, field, text) {
  cell.textContent = text !== field.value ? "changed" : field.value ? "sure" : "not found";
}

function showTally() {
  const rest = ids.length;
  by("left").textContent = rest;
  by("left-words").textContent = rest === 1 ? "tag waits" : "tags wait";
}

function trouble(text) {
  by("trouble").textContent = text;
}

function tell(text) {
  by("news").textContent = text;
}

function showLost(isLost) {
  by("lost").hidden = !isLost;
  by("lost").textContent = isLost
    ? "The desk does not answer. Start balltag review again: what you answered and typed is kept here, and is sent as soon as it answers."
    : "";
  if (!isLost) tell("The desk answers again; nothing was lost.");
}

// ---- Keys, buttons, and what comes from elsewhere

const toHeading = () => by("asked").focus({ preventScroll: true });

function dialogField(name) {
  return [...current.view.fields, ...questions()].find((field) => field.field === name);
}

const acts = {
  take: () => take(by("typed").value),
  type: () => {
    if (by("typing").hidden) return;
    by("typed").focus();
    by("typed").select();
  },
  none: () => !open().only_candidates && answer({ [open().field]: "" }),
  back,
  skip: () => working(() => leave("skipped")),
  discard: () =>
    working(async () => {
      await askUntilAnswered(`/review/tags/${current.view.id}/discard`, {}, showLost);
      tell("Discarded; B takes that back.");
      await leave("discarded");
    }),
  split: () => !open().only_candidates && openSplit(by("typed").value || open().printed, open().field, [...current.view.doubts, ...current.view.fields], answer),
  join: () =>
    openJoin({
      view: current.view,
      doubt: open(),
      ids: ids.slice(Math.max(at - 4, 0), at + 8).filter((id) => id !== current.view.id),
      pictureOf: (id) => `/tags/${id}/small.jpg`,
      onText: (text) => {
        by("typed").value = text;
        keepTyped();
        by("typed").focus();
      },
      onSide: joinSide,
    }),
  zoom: () => viewer.toggle(),
  closer: () => viewer.closer(1.5),
  further: () => viewer.closer(1 / 1.5),
  turn: () => viewer.turn(1),
  turnLeft: () => viewer.turn(-1),
  left: () => viewer.move(-STEP, 0),
  right: () => viewer.move(STEP, 0),
  up: () => viewer.move(0, -STEP),
  down: () => viewer.move(0, STEP),
  others: () => {
    by("others").open = !by("others").open;
    if (by("others").open) by("others-rows").querySelector("input")?.focus();
  },
  alike: () => location.assign("/alike"),
  keys: () => by("keys").showModal(),
  close: (button) => button.closest("dialog").close(),
  again: () => {
    at = 0;
    return working(showTag);
  },
};

const KEYS = {
  Enter: "take", t: "type", n: "none", b: "back", s: "skip", d: "discard", x: "split", j: "join",
  z: "zoom", "+": "closer", "=": "closer", "-": "further", r: "turn", R: "turnLeft", f: "others", a: "alike",
  ArrowLeft: "left", ArrowRight: "right", ArrowUp: "up", ArrowDown: "down", "?": "keys",
};
const WITHOUT_TAG = ["back", "alike", "keys", "again", "close"];
const MAY_REPEAT = ["closer", "further", "left", "right", "up", "down"];

function act(name, button) {
  if (busy || (!current && !WITHOUT_TAG.includes(name))) return;
  acts[name](button);
}

function choose(place) {
  const choice = current && open() && choicesFor(open())[place];
  if (!busy && choice) take(choice.text);
}

document.addEventListener("keydown", (event) => {
  const inText = event.target.closest("input, select, textarea");
  if (event.key === "Escape" && inText && !event.target.closest("dialog")) return giveUp();
  const wantsAlt = !by("keys-on").checked && event.key !== "Enter";
  if (event.ctrlKey || event.metaKey || event.altKey !== wantsAlt) return;
  if (inText || event.target.closest("dialog") || document.querySelector("dialog[open]")) return;
  if (event.key === "Enter" && event.target.closest("button, a, summary")) return;
  const name = KEYS[event.key] ?? KEYS[event.key.toLowerCase()];
  const number = /^[1-9]$/.test(event.key) && current;
  // A key that is held down must not answer what was not looked at.
  if (event.repeat && !MAY_REPEAT.includes(name)) return;
  if (!name && !number) return;
  if (name?.length && /^(left|right|up|down)$/.test(name) && viewer.zoom === 1) return;
  event.preventDefault();
  if (number) choose(Number(event.key) - 1);
  else act(name);
});

function giveUp() {
  if (document.activeElement === by("typed")) {
    delete current.draft.typed[open().field];
    by("typed").value = open().value;
    keep(current.view.id, current.draft);
  }
  toHeading();
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (button?.dataset.does) act(button.dataset.does, button);
  else if (button?.dataset.choice) choose(Number(button.dataset.choice));
});

by("typing").addEventListener("submit", (event) => {
  event.preventDefault();
  act("take");
});

function keepTyped() {
  current.draft.typed[open().field] = by("typed").value;
  keep(current.view.id, current.draft);
}

by("typed").addEventListener("input", keepTyped);

by("others-rows").addEventListener("input", ({ target }) => {
  const field = dialogField(target.dataset.field);
  const { answers, typed } = current.draft;
  delete typed[field.field];
  if (target.value === field.value) delete answers[field.field];
  else answers[field.field] = target.value;
  keep(current.view.id, current.draft);
  markChanged(target.closest("tr").querySelector(".mark-changed"), field, target.value);
});

by("keys-on").checked = localStorage.getItem("desk-keys") !== "off";
by("keys-on").addEventListener("change", ({ target }) => {
  localStorage.setItem("desk-keys", target.checked ? "on" : "off");
});

/** What came in or was settled elsewhere since the last look. */
async function lookAgain() {
  if (busy || document.hidden) return;
  const { ids: now } = await ask("/review/tags").catch(() => ({}));
  if (busy || !now) return;
  const before = new Set(ids);
  const still = new Set(now);
  const shown = current?.view.id;
  if (shown && !still.has(shown)) return working(() => pass(shown, { kind: "NotWaiting" }));
  const skipped = ids.slice(0, at).filter((id) => still.has(id));
  const rest = ids.slice(at).filter((id) => still.has(id));
  ids = [...skipped, ...rest, ...now.filter((id) => !before.has(id))];
  at = skipped.length;
  if (!current && at < ids.length) return working(showTag);
  return showTally();
}

setInterval(lookAgain, LOOK_AGAIN_MS);
window.addEventListener("focus", lookAgain);

async function start() {
  ({ ids } = await askUntilAnswered("/review/tags", undefined, showLost));
  const wanted = ids.indexOf(location.hash.slice(1));
  at = Math.max(wanted, 0);
  lookForOffers();
  await showTag();
  say(`${ids.length} tags wait`);
}

working(start);
