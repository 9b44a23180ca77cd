// Talking to the desk: every request of a page's script goes through here.

/** The desk did not answer at all: it was closed, or the network is down. */
export class Lost extends Error {}

/** The desk answered that it cannot do it; `kind` names the failure, the message is for the user. */
export class Refused extends Error {
  constructor(kind, message, details = {}) {
    super(message);
    this.kind = kind;
    this.details = details;
  }
}

let token = document.querySelector('meta[name="desk-token"]').content;

async function send(path, body) {
  const headers = { Accept: "application/json" };
  const options = { headers };
  if (body !== undefined) {
    options.method = "POST";
    options.body = JSON.stringify(body);
    headers["Content-Type"] = "application/json";
    headers["X-Desk-Token"] = token;
  }
  try {
    return await fetch(path, options);
  } catch {
    throw new Lost("the desk does not answer");
  }
}

/** GET `path`, or POST `body` to it; the JSON that came back.  Throws Lost or Refused. */
export async function ask(path, body) {
  let answer = await send(path, body);
  if (answer.headers.get("X-Desk-Refusal") === "token") {
    // The desk was started anew since this page was loaded.
    token = (await (await send("/token")).json()).token;
    answer = await send(path, body);
  }
  const isJson = (answer.headers.get("Content-Type") || "").includes("json");
  const data = isJson ? await answer.json() : { message: (await answer.text()).trim() };
  if (!answer.ok) throw new Refused(data.failure || String(answer.status), data.message, data);
  return data;
}

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** As `ask`, again and again while the desk does not answer; `whenLost(true)` tells that it
    does not, `whenLost(false)` that it does again. */
export async function askUntilAnswered(path, body, whenLost) {
  let wasLost = false;
  for (let wait_ms = 400; ; wait_ms = Math.min(wait_ms * 1.5, 4000)) {
    try {
      const data = await ask(path, body);
      if (wasLost) whenLost(false);
      return data;
    } catch (error) {
      if (!(error instanceof Lost)) {
        if (wasLost) whenLost(false);
        throw error;
      }
      wasLost = true;
      whenLost(true);
      await pause(wait_ms);
    }
  }
}

/** Tell a screen reader, and nobody else, what changed. */
export function say(text) {
  const region = document.getElementById("said");
  region.textContent = "";
  // A region that is filled anew in the same moment is not read again.
  requestAnimationFrame(() => (region.textContent = text));
}
