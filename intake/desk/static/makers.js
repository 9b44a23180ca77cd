// The maker sheet: another empty line whenever one is wanted.
const body = document.querySelector("#lines tbody");
const button = document.getElementById("add-line");

button.hidden = false;
button.addEventListener("click", () => {
  const lines = [...body.rows].filter((row) => row.querySelector("input"));
  const fresh = lines.at(-1).cloneNode(true);
  for (const input of fresh.querySelectorAll("input")) {
    input.value = "";
    input.removeAttribute("aria-invalid");
    input.removeAttribute("aria-describedby");
    input.setAttribute(
      "aria-label",
      input.getAttribute("aria-label").replace(/\d+$/, String(lines.length + 1)),
    );
  }
  body.append(fresh);
  fresh.querySelector("input").focus();
});
