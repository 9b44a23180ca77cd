// The page with the code: it tells when a phone has come in.
import { Lost, ask } from "./desk.js";

const code = document.getElementById("code");
const LOOK_MS = 1500;

async function look() {
  try {
    const { open } = await ask(`/phone/${encodeURIComponent(code.dataset.key)}/state`);
    if (!open) {
      code.classList.add("spent");
      document.getElementById("waits").hidden = true;
      document.getElementById("came").hidden = false;
      return;
    }
  } catch (error) {
    if (!(error instanceof Lost)) return;
  }
  setTimeout(look, LOOK_MS);
}

look();
