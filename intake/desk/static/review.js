// The review: one doubtful tag at a time, answered with one key where that is enough.

import { Refused, ask, askUntilAnswered, say } from "./desk.js";
import { draftFrom, keepDraft } from "./drafts.js";
import { openJoin } from "./join.js";
import { listenForKeys } from "./keys.js";
import {
  by, choicesFor, markChange, showBeyond, showNothing, showQuestion, showRest, toHeading, viewer,
} from "./question.js";
import { openSplit } from "./split.js";
import { Tag } from "./tag.js";
import { fetchAhead, fetchSide, fetchTag, forget, smallPictureOf } from "./tags.js";
import { Trail, Waiting } from "./waiting.js";

const AHEAD = 2; // tags that are fetched before they are asked for
const LOOK_AGAIN_MS = 20000;
const BEYOND_AFTER_MS = 1500;
const LEARNT = ["maker", "range", "shade"];
const STEP = 0.25; // share of the picture by which an arrow key moves it
const CLOSER = 1.5;

const waiting = new Waiting();
const trail = new Trail();
let tag = null; // the one on show
let busy = false;
let known = { offers: {}, groups: [] }; // what goes beyond one tag
let knownTimer = 0;

// ---- Saying things

const tell = (text) => (by("news").textContent = text);
const trouble = (text) => (by("trouble").textContent = text);

function showLost(isLost) {
  by("lost").hidden = !isLost;
  by("lost").textContent = isLost
    ? "The desk does not answer. Start balltag review again: what you answered and typed is kept here, and is sent as soon as it answers."
    : "";
  if (!isLost) tell("The desk answers again; nothing was lost.");
}

function showTally() {
  by("left").textContent = waiting.count;
  by("left-words").textContent = waiting.count === 1 ? "tag waits" : "tags wait";
}

// ---- Going through the tags

/** Do what waits for the desk.  Keys pressed meanwhile do nothing: they must not answer a
    question that was not on show yet. */
async function working(work) {
  if (busy) return;
  setBusy(true);
  try {
    await work();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    await cannot(error);
  } finally {
    setBusy(false);
  }
}

function setBusy(is) {
  busy = is;
  by("main").setAttribute("aria-busy", is);
}

/** The desk could not do it: the tag was settled elsewhere, or it says why. */
async function cannot(error) {
  if (tag && error.kind === "NotWaiting") return passOver(tag.id, error);
  if (tag?.open) trouble(error.message);
  else tell(error.message);
}

async function showTag() {
  showTally();
  const id = waiting.id;
  tag = null;
  if (id === undefined) return showNothing(waiting.count > 0);
  try {
    tag = new Tag(await fetchTag(id, showLost));
    if (tag.draft.joined) await rejoin();
    tag.dropStale();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return passOver(id, error);
  }
  by("others").open = false;
  showRest(tag);
  fetchAhead(waiting.ahead(AHEAD), id);
  if (tag.open) return showOpen();
  return send(); // all was answered before, but the desk never confirmed it
}

const showOpen = () => showQuestion(tag, beyond(tag.open));

/** What goes beyond one tag about a doubt: an offer that was learnt, the tags that share it. */
function beyond(doubt) {
  const { id } = doubt.of ?? tag.view;
  const shares = ({ field, tags }) => field === doubt.field && tags.includes(id);
  return { offer: known.offers[id]?.[doubt.field], group: known.groups.find(shares) };
}

/** Go on from a tag that was settled in another window, or cannot be shown. */
function passOver(id, error) {
  const elsewhere = "That tag was answered in another window. Here is the next one.";
  if (error.kind === "NotWaiting") tag?.drop();
  tell(error.kind === "NotWaiting" ? elsewhere : error.message);
  forget(id);
  waiting.remove(id);
  return showTag();
}

function leave(how) {
  trail.push({ id: tag.id, how, draft: tag.draft });
  forget(tag.id);
  if (how === "skipped") {
    waiting.skip();
  } else {
    tag.drop();
    waiting.remove(tag.id);
    if (tag.other) waiting.remove(tag.other.id);
  }
  return showTag();
}

// ---- Answering

function take(text) {
  const doubt = tag.open;
  const typed = text.trim();
  if (doubt.only_candidates && !doubt.candidates.includes(typed)) {
    return trouble(`Choose ${doubt.candidates.map((_, place) => place + 1).join(" or ")}.`);
  }
  if (!typed) return trouble("Type it, or press N where it is not on the tag.");
  if (doubt.joins && typed === doubt.joins) {
    return working(() => joinSide(doubt.earlier, { [doubt.field]: typed }));
  }
  return answer({ [doubt.field]: typed });
}

function answer(texts) {
  tag.answer(texts);
  return working(send);
}

/** Send all answers so far; ask on, or leave the tag once it is filed. */
async function send() {
  let result;
  try {
    result = await askUntilAnswered(`/review/tags/${tag.id}/answers`, tag.told, showLost);
  } catch (error) {
    if (tag.retract()) showOpen(); // the last answer can be given again
    throw error;
  }
  if (result.state === "refused") return refuse(result);
  if (result.state === "asked") tag.further = result.doubts;
  if (result.state === "open" || result.state === "asked") return showOpen();
  tell(result.said);
  if (tag.questions.some((doubt) => LEARNT.includes(doubt.field))) lookBeyond();
  return leave(result.state);
}

/** A value that its field cannot hold: it is asked about again with what was typed. */
function refuse({ field, message }) {
  tag.refuse(field);
  showRest(tag);
  showOpen();
  trouble(message);
  if (!tag.isAsked(field)) by("others").open = true;
  by(tag.isAsked(field) ? "typed" : `other-${field}`).focus();
}

async function discard() {
  await askUntilAnswered(`/review/tags/${tag.id}/discard`, {}, showLost);
  tell("Discarded; B takes that back");
  return leave("discarded");
}

// ---- Going back

/** One step back: within the tag, then to the tag before, as this window or the desk's
    history remembers it. */
async function back() {
  if (tag?.retract()) {
    forget(tag.id);
    return showTag();
  }
  const step = trail.pop();
  if (step?.how === "skipped") {
    waiting.goTo(step.id);
    return showTag();
  }
  const tags = await takeBack(step?.id ?? "");
  const again = Object.keys(tags).sort((one) => (one === step?.id ? -1 : 0));
  if (!again.length) {
    return step ? back() : tell("This is the first step; there is nothing before it.");
  }
  waiting.next(again);
  for (const id of again) await reopen(id, tags[id], step?.id === id ? step.draft : null);
  tell(again.length > 1 ? `${again.length} tags wait again.` : "Taken back: this tag waits again.");
  return showTag();
}

/** Let the desk take back what settled a tag, or the last thing of all.  The tags that wait
    again, with the values that they had. */
async function takeBack(id) {
  const { tags } = await askUntilAnswered("/review/back", { tag: id }, showLost);
  return tags;
}

/** Ask on where the tag was left: all its answers but the last stand. */
async function reopen(id, given, before) {
  forget(id);
  const view = await fetchTag(id, showLost);
  keepDraft(id, before ?? draftFrom(given, view.doubts.map((doubt) => doubt.field)));
  new Tag(view).retract();
}

// ---- Joining with the other side

async function rejoin() {
  try {
    tag.other = await fetchSide(tag.draft.joined, showLost);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tag.part(); // it was settled meanwhile
  }
}

async function joinSide(id, said = {}) {
  const count = tag.join(await fetchSide(id, showLost), said);
  showRest(tag);
  tell(`Joined; ${count} values came from the other side.`);
  return send();
}

// ---- What was learnt, what came in, what was settled elsewhere

/** Ask what goes beyond one tag once no answer came for a while: it is not worth a wait. */
function lookBeyond() {
  clearTimeout(knownTimer);
  knownTimer = setTimeout(async () => {
    known = await ask("/alike/beyond").catch(() => known);
    const isChoosing = by("choices").contains(document.activeElement);
    if (tag?.open && !busy && !isChoosing) showBeyond(tag.open, beyond(tag.open));
  }, BEYOND_AFTER_MS);
}

async function lookAgain() {
  if (busy || document.hidden) return;
  const { ids } = await ask("/review/tags").catch(() => ({}));
  if (busy || !ids) return;
  const shown = tag?.id;
  waiting.refresh(ids);
  if (shown && !ids.includes(shown)) working(() => passOver(shown, { kind: "NotWaiting" }));
  else if (!shown && waiting.id) working(showTag);
  else showTally();
}

// ---- Keys and buttons

const acts = {
  take: () => take(by("typed").value),
  type: () => {
    if (tag.open.only_candidates) return;
    by("typed").focus();
    by("typed").select();
  },
  none: () => tag.open.only_candidates || answer({ [tag.open.field]: "" }),
  back: () => working(back),
  skip: () => working(() => leave("skipped")),
  discard: () => working(discard),
  split: () => {
    if (tag.open.only_candidates) return;
    openSplit(by("typed").value || tag.open.printed, tag.open.field, tag.fields, answer);
  },
  join: () =>
    openJoin({
      lines: tag.view.lines,
      chosen: tag.open.of ? [] : tag.open.lines,
      sides: waiting.around(4, 8).map((id) => ({ id, picture: smallPictureOf(id) })),
      onText: typeJoined,
      onSide: (id) => working(() => joinSide(id)),
    }),
  zoom: () => viewer.toggle(),
  closer: () => viewer.closer(CLOSER),
  further: () => viewer.closer(1 / CLOSER),
  turn: () => viewer.turn(1),
  turnLeft: () => viewer.turn(-1),
  left: () => viewer.move(-STEP, 0),
  right: () => viewer.move(STEP, 0),
  up: () => viewer.move(0, -STEP),
  down: () => viewer.move(0, STEP),
  rest: () => {
    by("others").open = !by("others").open;
    if (by("others").open) by("others-rows").querySelector("input")?.focus();
  },
  alike: () => location.assign(by("shared-link").href),
  keys: () => by("keys").showModal(),
  again: () => {
    waiting.fromStart();
    return working(showTag);
  },
};
const WITHOUT_TAG = ["back", "alike", "keys", "again"];

function act(name) {
  if (!busy && (tag || WITHOUT_TAG.includes(name))) acts[name]();
}

function choose(place) {
  if (busy || !tag?.open) return;
  const choice = choicesFor(tag.open, beyond(tag.open))[place];
  if (choice) take(choice.text);
}

function typeJoined(text) {
  by("typed").value = text;
  tag.type(text);
  by("typed").focus();
}

function giveUpTyping(input) {
  if (input === by("typed") && tag?.open) {
    tag.giveUpTyping();
    input.value = tag.open.value;
  }
  toHeading();
}

listenForKeys({ act, choose, leave: giveUpTyping, canMove: () => viewer.zoom > 1 });

document.addEventListener("click", ({ target }) => {
  const { does, choice } = target.closest("button")?.dataset ?? {};
  if (does === "close") target.closest("dialog").close();
  else if (does) act(does);
  else if (choice) choose(Number(choice));
});

by("typing").addEventListener("submit", (event) => {
  event.preventDefault();
  act("take");
});

by("typed").addEventListener("input", () => tag?.open && tag.type(by("typed").value));

by("others-rows").addEventListener("input", ({ target }) => {
  const field = tag.view.fields.find((each) => each.field === target.dataset.field);
  tag.correct(field.field, target.value);
  markChange(target.closest("tr").querySelector(".mark-changed"), field, target.value);
});

setInterval(lookAgain, LOOK_AGAIN_MS);
window.addEventListener("focus", lookAgain);

working(async () => {
  const { ids } = await askUntilAnswered("/review/tags", undefined, showLost);
  waiting.refresh(ids);
  const wanted = location.hash.slice(1);
  if (ids.includes(wanted)) waiting.next([wanted]);
  lookBeyond();
  await showTag();
  say(`${ids.length} tags wait`);
});
