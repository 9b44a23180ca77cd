// Plain forms made safe against a desk that was closed or started anew meanwhile: nothing is
// sent before the desk answers, so what was typed stays on the page.
import { ask } from "./desk.js";

document.addEventListener("submit", async (event) => {
  const form = event.target;
  if (form.method !== "post" || form.dataset.goes) return;
  event.preventDefault();
  try {
    const { token } = await ask("/token");
    form.action = `${form.action.split("?")[0]}?token=${encodeURIComponent(token)}`;
  } catch {
    tell(form, "The desk does not answer. Nothing is lost: try again when it is open.");
    return;
  }
  form.dataset.goes = "yes";
  form.requestSubmit(event.submitter);
});

// A page that is come back to can send its forms again.
addEventListener("pageshow", () => {
  for (const form of document.forms) delete form.dataset.goes;
});

function tell(form, words) {
  let line = form.querySelector(".lost");
  if (!line) {
    line = document.createElement("p");
    line.className = "lost";
    line.setAttribute("role", "alert");
    form.append(line);
  }
  line.textContent = words;
}

// Moments are kept in UTC; people live elsewhere.
for (const time of document.querySelectorAll("time[data-moment]")) {
  time.title = time.dateTime;
  time.textContent = new Date(time.dateTime).toLocaleString([], {
    dateStyle: "medium",
    timeStyle: "short",
  });
}
