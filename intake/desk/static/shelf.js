// The stash page: what is found follows what is typed; more comes as one scrolls.
import { say } from "./desk.js";

const form = document.getElementById("seek");
const found = document.getElementById("found");

/** Pictures that were not shown yet are fetched when typing rests: making them small would
    keep the desk from answering the next key. */
const REST_MS = 150;
const shown = new Set();

let asked = null;
let resting = 0;

async function fetchFound(query) {
  asked?.abort();
  asked = new AbortController();
  const answer = await fetch(`/shelf/found?${query}`, { signal: asked.signal });
  if (!answer.ok) throw new Error((await answer.text()).trim());
  return answer.text();
}

function queryOfForm() {
  const query = new URLSearchParams(new FormData(form));
  for (const [name, text] of [...query]) if (!text.trim()) query.delete(name);
  return query.toString();
}

async function seek() {
  const query = queryOfForm();
  try {
    found.replaceChildren(withoutNewPictures(await fetchFound(query)));
  } catch (error) {
    if (error.name !== "AbortError") tell(error);
    return;
  }
  history.replaceState(null, "", query ? `/shelf?${query}` : "/shelf");
  document.documentElement.scrollTop = 0;
  say(found.querySelector("[data-say]")?.dataset.say ?? "nothing found");
  watchForMore();
}

function withoutNewPictures(markup) {
  const fresh = document.createElement("template");
  fresh.innerHTML = markup;
  for (const image of fresh.content.querySelectorAll("img")) {
    const address = image.getAttribute("src");
    if (shown.has(address)) continue;
    image.dataset.src = address;
    image.removeAttribute("src");
  }
  clearTimeout(resting);
  resting = setTimeout(showPictures, REST_MS);
  return fresh.content;
}

function showPictures() {
  for (const image of found.querySelectorAll("img[data-src]")) {
    image.src = image.dataset.src;
    delete image.dataset.src;
  }
}

function tell(error) {
  const words = document.createElement("p");
  words.className = "lost";
  words.setAttribute("role", "alert");
  words.textContent = error instanceof TypeError ? "The desk does not answer." : error.message;
  found.replaceChildren(words);
}

async function bringMore(link) {
  const query = new URL(link.href).search.slice(1);
  const fresh = document.createElement("template");
  try {
    fresh.innerHTML = await fetchFound(query);
  } catch {
    return; // the link stays, and still leads on
  }
  fresh.content.querySelector(".come-to")?.remove();
  link.closest(".onward").replaceWith(fresh.content);
  watchForMore();
}

const nearing = new IntersectionObserver(
  (entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      nearing.unobserve(entry.target);
      bringMore(entry.target);
    }
  },
  { rootMargin: "800px" },
);

function watchForMore() {
  nearing.disconnect();
  const link = found.querySelector("[data-more]");
  if (link) nearing.observe(link);
}

found.addEventListener("load", (event) => shown.add(event.target.getAttribute("src")), true);
form.addEventListener("input", seek);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  seek();
});
addEventListener("keydown", (event) => {
  const typing = event.target.closest("input, select, textarea");
  if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
    event.preventDefault();
    document.getElementById("words").focus();
  }
});
watchForMore();
