// Bringing pictures in: each is sent on its own, and what became of it is shown when it is read.
import { Lost, Refused, ask, say } from "./desk.js";

const drop = document.getElementById("drop");
const list = document.getElementById("sent");
const lost = document.getElementById("lost");
const mostBytes = Number(drop.dataset.mostBytes);

const PAUSE_MS = 3000;
const LOOK_MS = 900;
const STAGES = { waits: "Waits to be read", reading: "Is being read …", done: "" };
const OUTCOMES = {
  filed: ["✓", "Filed"],
  queued: ["?", "Asks"],
  already: ["=", "Here already"],
  failed: ["!", "Not taken"],
};

/** What the desk has or is to get: by the desk's id, or by one of our own until it has one. */
const rows = new Map();
const toSend = [];
let sending = false;
let looking = false;
let isAsked = false;

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** A new row above that of the next older picture; where there is none, below all others. */
function row(name, older) {
  const item = document.getElementById("one").content.firstElementChild.cloneNode(true);
  item.querySelector(".one-name").textContent = name;
  list.insertBefore(item, older);
  document.getElementById("sent-words").hidden = false;
  return item;
}

function preview(image, file) {
  const address = URL.createObjectURL(file);
  image.onload = () => {
    image.hidden = false;
    URL.revokeObjectURL(address);
  };
  image.onerror = () => URL.revokeObjectURL(address); // a format that this browser cannot show
  image.src = address;
}

function bring(files) {
  for (const file of files) {
    const item = row(file.name, list.firstElementChild);
    preview(item.querySelector(".one-picture"), file);
    if (file.size > mostBytes) {
      fail(item, `has more than ${mostBytes / 1e6} MB; scan it at 300 dpi`);
    } else {
      stage(item, "Waits to be sent");
      toSend.push({ file, item });
    }
  }
  sendAll();
}

async function sendAll() {
  if (sending) return;
  sending = true;
  while (toSend.length) {
    const { file, item } = toSend[0];
    const trouble = await send(file, item).catch((error) => error);
    lost.hidden = !(trouble instanceof Lost);
    if (trouble instanceof Lost || trouble?.kind === "InboxFull") {
      stage(item, trouble instanceof Lost ? "Waits for the desk" : "Waits, for many are being read");
      await pause(PAUSE_MS);
      continue;
    }
    if (trouble) fail(item, trouble.message);
    toSend.shift();
  }
  sending = false;
  look();
}

async function send(file, item) {
  const { token } = await ask("/token");
  const sent = await post(file, token, item.querySelector("progress"));
  rows.set(sent.id, item);
  show(item, sent);
  look();
}

/** Only this older kind of request tells how far it is. */
function post(file, token, bar) {
  return new Promise((done, refuse) => {
    const request = new XMLHttpRequest();
    request.open("POST", `/new/pictures?name=${encodeURIComponent(file.name)}`);
    request.setRequestHeader("X-Desk-Token", token);
    request.setRequestHeader("Accept", "application/json");
    request.setRequestHeader("Content-Type", "application/octet-stream");
    request.responseType = "json";
    request.upload.onprogress = (event) => {
      bar.hidden = false;
      bar.value = event.loaded / Math.max(1, event.total);
    };
    request.onloadend = () => {
      bar.hidden = true;
      if (request.status === 0) refuse(new Lost("the desk does not answer"));
      else if (request.status === 200) done(request.response);
      else refuse(new Refused(request.response?.failure ?? "", request.response?.message ?? "refused"));
    };
    request.send(file);
  });
}

/** Ask what became of the pictures, and again for as long as one is not done. */
async function look() {
  isAsked = true;
  if (looking) return;
  looking = true;
  while (isAsked) {
    isAsked = false;
    try {
      const { pictures } = await ask("/new/pictures");
      showAll(pictures);
      isAsked ||= pictures.some((sent) => sent.stage !== "done");
      if (!sending) lost.hidden = true;
    } catch (error) {
      lost.hidden = !(error instanceof Lost);
      isAsked = true;
    }
    if (isAsked) await pause(LOOK_MS);
  }
  looking = false;
}

/** Each picture of the desk in its row, the last one on top. */
function showAll(pictures) {
  let older = null;
  for (const sent of [...pictures].reverse()) {
    // While we send, one that we do not know may be ours: its answer is on the way.
    if (!rows.has(sent.id) && sending) continue;
    if (!rows.has(sent.id)) rows.set(sent.id, row(sent.name, older));
    older = rows.get(sent.id);
    show(older, sent);
  }
}

function show(item, sent) {
  if (item.dataset.stage === "done") return;
  item.dataset.stage = sent.stage;
  stage(item, STAGES[sent.stage]);
  if (sent.stage !== "done") return;
  if (sent.failure) fail(item, sent.failure);
  for (const told of sent.results) result(item, told);
  say(`${sent.name}: ${item.querySelector(".results").innerText}`);
}

function stage(item, words) {
  item.querySelector(".one-stage").textContent = words;
}

function fail(item, words) {
  const name = item.querySelector(".one-name").textContent;
  stage(item, "");
  result(item, { outcome: "failed", id: "", words: words.replace(`${name}: `, "") });
}

function result(item, told) {
  const [sign, words] = OUTCOMES[told.outcome];
  const line = document.createElement("li");
  line.className = told.outcome;
  const mark = document.createElement("span");
  mark.setAttribute("aria-hidden", "true");
  mark.textContent = sign;
  const strong = document.createElement("strong");
  strong.textContent = words;
  line.append(mark, strong, told.words ? `: ${told.words} ` : " ");
  const target = { filed: [`/records/${told.id}`, "open"], queued: ["/review", "answer"] }[told.outcome];
  if (target) {
    const link = document.createElement("a");
    [link.href, link.textContent] = target;
    line.append(link);
  }
  item.querySelector(".results").append(line);
}

for (const input of document.querySelectorAll("input[type=file]")) {
  input.addEventListener("change", () => {
    bring([...input.files]);
    input.value = "";
  });
}

// The whole page takes what is dropped: missing the frame must not leave the page.
addEventListener("dragover", (event) => {
  event.preventDefault();
  drop.classList.add("over");
});
addEventListener("dragleave", (event) => {
  if (!event.relatedTarget) drop.classList.remove("over");
});
addEventListener("drop", (event) => {
  event.preventDefault();
  drop.classList.remove("over");
  bring([...event.dataTransfer.files]);
});
addEventListener("beforeunload", (event) => {
  if (toSend.length) event.preventDefault();
});

look();
