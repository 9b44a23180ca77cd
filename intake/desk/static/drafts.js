// What was answered and typed about a tag, kept in the browser until the desk confirmed it.

const PREFIX = "desk-draft:";
const EMPTY = { answers: {}, order: [], typed: {}, joined: "" };

function read(name) {
  try {
    return JSON.parse(localStorage.getItem(name));
  } catch {
    return null; // kept by another version, or no storage at all
  }
}

/** The draft of a tag: `answers` by field (null where the value as read is kept), `order` the
    questions in order of answering, `typed` text not yet sent, `joined` the other side's id. */
export function draft(id) {
  return { ...structuredClone(EMPTY), ...read(PREFIX + id) };
}

export function keep(id, draft) {
  try {
    localStorage.setItem(PREFIX + id, JSON.stringify(draft));
  } catch {
    // A full or forbidden storage: the answers still live in this page.
  }
}

export function drop(id) {
  try {
    localStorage.removeItem(PREFIX + id);
  } catch {
    // Nothing was kept, then.
  }
}
