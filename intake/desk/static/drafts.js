// What was answered and typed about a tag, kept in the browser until the desk confirmed it.

const PREFIX = "desk-draft:";

/** An empty draft: `answers` by field, `steps` the groups of fields in order of answering,
    `typed` text not yet sent by field, `joined` the id of the tag's other side. */
const empty = () => ({ answers: {}, steps: [], typed: {}, joined: "" });

/** The draft of a tag. */
export function draftOf(id) {
  try {
    return { ...empty(), ...JSON.parse(localStorage.getItem(PREFIX + id)) };
  } catch {
    return empty(); // kept by another version, or no storage at all
  }
}

/** The draft of a tag that was filed with the values `given`: all but the last of `fields`
    stand, and that one is typed already. */
export function draftFrom(given, fields) {
  const draft = empty();
  for (const field of fields.filter((name) => name in given)) {
    draft.answers[field] = given[field];
    draft.steps.push([field]);
  }
  return draft;
}

export function keepDraft(id, draft) {
  try {
    localStorage.setItem(PREFIX + id, JSON.stringify(draft));
  } catch {
    // A full or forbidden storage: the answers still live in this page.
  }
}

export function dropDraft(id) {
  try {
    localStorage.removeItem(PREFIX + id);
  } catch {
    // Nothing was kept, then.
  }
}
