// The keys of the review.

const KEYS = {
  Enter: "take", t: "type", n: "none", b: "back", s: "skip", d: "discard", x: "split", j: "join",
  z: "zoom", "+": "closer", "=": "closer", "-": "further", r: "turn", R: "turnLeft", f: "rest",
  ArrowLeft: "left", ArrowRight: "right", ArrowUp: "up", ArrowDown: "down", a: "alike", "?": "keys",
};
const MOVES = ["left", "right", "up", "down"];
const MAY_REPEAT = ["closer", "further", ...MOVES];
const KEPT_AS = "desk-keys";

/** Call `act` with the name of what a key does, `choose` with the place of an answer, and
    `leave` when typing is given up.  Arrows move the picture only where `canMove()`. */
export function listenForKeys({ act, choose, leave, canMove }) {
  const alone = document.getElementById("keys-on");
  alone.checked = localStorage.getItem(KEPT_AS) !== "off";
  alone.addEventListener("change", () => {
    localStorage.setItem(KEPT_AS, alone.checked ? "on" : "off");
  });

  document.addEventListener("keydown", (event) => {
    const { key, target } = event;
    if (document.querySelector("dialog[open]")) return;
    if (target.closest("input, select, textarea")) {
      if (key === "Escape") leave(target);
      return;
    }
    if (key === "Enter" && target.closest("button, a, summary")) return;
    const wantsAlt = !alone.checked && key !== "Enter";
    if (event.ctrlKey || event.metaKey || event.altKey !== wantsAlt) return;
    const name = KEYS[key] ?? KEYS[key.toLowerCase()];
    const isChoice = /^[1-9]$/.test(key);
    if (!name && !isChoice) return;
    // A key that is held down must not answer what was not looked at.
    if (event.repeat && !MAY_REPEAT.includes(name)) return;
    if (MOVES.includes(name) && !canMove()) return;
    event.preventDefault();
    if (isChoice) choose(Number(key) - 1);
    else act(name);
  });
}
