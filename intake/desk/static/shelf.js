// The stash page: what is found follows what is typed; more comes as one scrolls.
import { say } from "./desk.js";

const form = document.getElementById("seek");
const found = document.getElementById("found");

let asked = null;

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
    found.innerHTML = await fetchFound(query);
  } catch (error) {
    if (error.name !== "AbortError") tell(error);
    return;
  }
  history.replaceState(null, "", query ? `/shelf?${query}` : "/shelf");
  document.documentElement.scrollTop = 0;
  say(found.querySelector("[data-say]")?.dataset.say ?? "nothing found");
  watchForMore();
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
