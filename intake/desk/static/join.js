// Joining: lines of print that are one value, or two waiting tags that are two sides of one.

const by = (id) => document.getElementById(id);
let asked = {};

const chosenLines = () =>
  [...by("join-lines").querySelectorAll("input:checked")].map((box) => box.value);
const joined = () => chosenLines().join(by("join-close").checked ? "" : " ");
const showJoined = () => (by("join-text").textContent = joined() || "—");

function option(type, name, value, checked, ...inside) {
  const label = document.createElement("label");
  const input = document.createElement("input");
  Object.assign(input, { type, name, value, checked });
  label.append(input, ...inside);
  return label;
}

function print(text) {
  const span = document.createElement("span");
  span.className = "print";
  span.textContent = text;
  return span;
}

function side({ id, picture }, place) {
  const shown = new Image();
  shown.src = picture;
  shown.alt = `Waiting tag ${place + 1}`;
  return option("radio", "side", id, false, shown);
}

/** Ask what belongs together.  `lines` are those of the tag, `chosen` the places of those
    that are ticked at first, `sides` the tags that may be its other side; `onText` gets the
    joined lines, `onSide` the other tag's id. */
export function openJoin({ lines, chosen, sides, onText, onSide }) {
  asked = { onText, onSide };
  by("join-lines").replaceChildren(
    ...lines.map(({ text }, at) =>
      option("checkbox", "line", text, chosen.includes(at), print(text)),
    ),
  );
  by("join-sides").replaceChildren(option("radio", "side", "", true, "none"), ...sides.map(side));
  showJoined();
  by("join").showModal();
}

by("join-form").addEventListener("change", showJoined);
by("join-form").addEventListener("submit", () => {
  const chosen = by("join-sides").querySelector("input:checked")?.value;
  if (chosen) asked.onSide(chosen);
  else if (joined()) asked.onText(joined());
});
