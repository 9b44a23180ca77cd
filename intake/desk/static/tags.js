// What the desk tells of tags, and their pictures: fetched before they are asked for.

import { Lost, ask, askUntilAnswered } from "./desk.js";

export const pictureOf = (id) => `/tags/${id}.jpg`;
export const smallPictureOf = (id) => `/tags/${id}/small.jpg`;

const coming = new Map();

/** What the desk tells of a waiting tag; waits for a desk that does not answer. */
export async function fetchTag(id, whenLost) {
  try {
    return await fetchOnce(id);
  } catch (error) {
    if (!(error instanceof Lost)) throw error;
    return askUntilAnswered(pathOf(id), undefined, whenLost);
  }
}

/** What the desk tells of a tag's other side, which may be a record already. */
export const fetchSide = (id, whenLost) =>
  askUntilAnswered(`/review/sides/${id}`, undefined, whenLost);

/** Have these tags and their pictures ready, and forget all others. */
export function fetchAhead(ids, id) {
  for (const next of ids) {
    fetchOnce(next).catch(() => {}); // told when it is asked for
    decoded(next);
  }
  for (const kept of coming.keys()) if (kept !== id && !ids.includes(kept)) forget(kept);
}

/** Fetch a tag anew the next time: it has changed. */
export function forget(id) {
  coming.delete(id);
}

/** Resolves when the picture can be shown; a picture that was taken away leaves nothing. */
export async function decoded(id) {
  const picture = new Image();
  picture.src = pictureOf(id);
  await picture.decode().catch(() => {});
}

const pathOf = (id) => `/review/tags/${id}`;

function fetchOnce(id) {
  if (!coming.has(id)) {
    const answer = ask(pathOf(id));
    answer.catch(() => forget(id));
    coming.set(id, answer);
  }
  return coming.get(id);
}
