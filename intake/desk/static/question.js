// One question as it stands on the page.  Whatever was read from a tag is set as text.

import { decoded, pictureOf } from "./tags.js";
import { Viewer, closeUp } from "./viewer.js";

const MOST_CHOICES = 9; // there are nine keys for them

export const by = (id) => document.getElementById(id);
export const viewer = new Viewer(by("picture"));
export const toHeading = () => by("asked").focus({ preventScroll: true });

/** Show the open question of a tag; `beyond` is what goes beyond it: an `offer` that was learnt
    since, the `group` of tags that share the doubt. */
export function showQuestion(tag, beyond) {
  const doubt = tag.open;
  const shown = doubt.of ?? tag.view;
  const all = tag.questions;
  by("empty").hidden = true;
  by("work").hidden = false;
  by("steps").textContent =
    all.length > 1 ? `Question ${all.indexOf(doubt) + 1} of ${all.length} about this tag` : "";
  by("asked").textContent = doubt.question;
  by("reason").textContent = doubt.reason;
  by("source").textContent = shown.source;
  by("source").title = shown.picture;
  by("typed").value = tag.draft.typed[doubt.field] ?? doubt.value;
  by("typing").hidden = doubt.only_candidates;
  for (const name of ["none", "split"]) {
    document.querySelector(`[data-does="${name}"]`).disabled = doubt.only_candidates;
  }
  by("trouble").textContent = "";
  by("notes").replaceChildren(...shown.notes.map((note) => element("li", note)));
  viewer.show(pictureOf(shown.id), shown.width_px, shown.height_px, doubt.places);
  showCloseUps(doubt, shown);
  showSeen(doubt);
  showBeyond(doubt, beyond);
  toHeading();
  window.scrollTo(0, 0);
  decoded(shown.id).then(() => {
    document.body.dataset.shown = `${tag.id}/${doubt.field}`;
  });
}

/** The answers that have a key: what was read and its like, then what was learnt since. */
export function choicesFor(doubt, { offer }) {
  const choices = doubt.candidates.map((text) => ({ text, why: text === doubt.value ? "as read" : "" }));
  if (offer && !doubt.candidates.includes(offer.new)) choices.push({ text: offer.new, why: offer.why });
  return choices.slice(0, MOST_CHOICES);
}

/** Show the choices, and that other tags share the doubt. */
export function showBeyond(doubt, beyond) {
  const choices = choicesFor(doubt, beyond).map(({ text, why }, place) => {
    const item = by("choice-form").content.cloneNode(true);
    item.querySelector("button").dataset.choice = place;
    item.querySelector("kbd").textContent = place + 1;
    item.querySelector("span").textContent = text;
    item.querySelector("small").textContent = why;
    return item;
  });
  by("choices").replaceChildren(...choices);
  by("choices").hidden = !choices.length;
  const others = (beyond.group?.tags.length ?? 1) - 1;
  by("shared").hidden = others < 1;
  by("shared-link").href = others < 1 ? "/alike" : `/alike#group-${beyond.group.id}`;
  by("shared-link").textContent =
    others === 1 ? "Another tag has the same doubt" : `${others} other tags have the same doubt`;
}

/** Show the fields that nothing is asked about, to be corrected. */
export function showRest(tag) {
  const { typed, answers } = tag.draft;
  const rows = tag.view.fields.map((field) => {
    const row = by("other-form").content.cloneNode(true);
    const [label, input] = [row.querySelector("label"), row.querySelector("input")];
    input.id = `other-${field.field}`;
    input.dataset.field = field.field;
    input.value = typed[field.field] ?? answers[field.field] ?? field.value;
    label.htmlFor = input.id;
    label.textContent = field.spoken;
    markChange(row.querySelector(".mark-changed"), field, input.value);
    return row;
  });
  by("others-rows").replaceChildren(...rows);
  const sure = tag.view.fields.filter((field) => field.value).length;
  by("others-words").textContent = `The rest of the tag: ${sure} sure`;
}

export function markChange(cell, field, text) {
  cell.textContent = text !== field.value ? "changed" : field.value ? "sure" : "not found";
}

/** Show that nothing is left to ask; `skipped` tags may wait. */
export function showNothing(skipped) {
  by("work").hidden = true;
  by("empty").hidden = false;
  by("empty-words").textContent = skipped ? "Only skipped tags wait" : "Nothing waits";
  by("empty-more").textContent = skipped
    ? "They wait until you come back to them."
    : "Every tag has its answer. New pictures come in with balltag intake, or on the page for new pictures.";
  by("again").hidden = !skipped;
  by("empty-words").focus();
  document.body.dataset.shown = "nothing";
}

function showCloseUps(doubt, shown) {
  const href = pictureOf(shown.id);
  const pieces = doubt.places.map((quad) => closeUp(href, shown.width_px, shown.height_px, quad));
  if (doubt.earlier) {
    pieces.push(pictured(shown.id, "this one"), pictured(doubt.earlier, "the one from before"));
  }
  by("close-ups").replaceChildren(...pieces);
  by("close-ups").hidden = !pieces.length;
}

function pictured(id, words) {
  const picture = new Image();
  picture.src = pictureOf(id);
  picture.alt = "";
  const figure = element("figure");
  figure.append(picture, element("figcaption", words));
  return figure;
}

function showSeen(doubt) {
  const rows = doubt.seen.flat().map(({ reader, before, word, after, differs }) => {
    const name = element("th", reader);
    name.scope = "row";
    const cell = element("td");
    cell.className = "print";
    const strong = element("strong");
    strong.append(
      ...[...word].map((letter, place) => element(differs.includes(place) ? "mark" : "span", letter)),
    );
    cell.append(before, strong, after);
    const row = element("tr");
    row.append(name, cell);
    return row;
  });
  by("seen").tBodies[0].replaceChildren(...rows);
  by("seen").hidden = !rows.length;
}

function element(name, text = "") {
  const node = document.createElement(name);
  node.textContent = text;
  return node;
}
