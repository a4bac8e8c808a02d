// The small module: rewrites the letter at once. Everything works without it; it only saves the button and the reload.

// The questions of the first visit are sent whole, by their button.
const form = () => document.querySelector("main form:not(.first, .working)");
const blanks = () => [...document.querySelectorAll("main form .blank")];
const heard = document.getElementById("heard");
const live = document.documentElement.classList;

/** What finds a control again in the fresh letter: its name (of a button also its value), and its turn among the like. */
const like = (control) => `${control.tagName} ${control.name} ${control.tagName === "BUTTON" ? control.value : ""}`;
const mark = (control) => `${like(control)} ${[...form().elements].filter((e) => like(e) === like(control)).indexOf(control)}`;

/** What the reader left: focus, open notes, the place on the page, and whatever was typed since `sent`. */
function leave(sent) {
  const at = document.activeElement;
  return {
    focus: at?.form === form() ? mark(at) : null,
    id: at?.closest("main [id]")?.id,
    notes: [...document.querySelectorAll("main details")].map((note) => [note.id, note.open]),
    typed: blanks().filter((blank) => blank.value !== sent.get(mark(blank))).map((blank) => [mark(blank), blank.value]),
    y: scrollY,
  };
}

function comeBack({ focus, id, notes, typed, y }) {
  for (const [note, open] of notes) document.getElementById(note)?.toggleAttribute("open", open);
  const found = new Map([...form().elements].map((control) => [mark(control), control]));
  for (const [blank, text] of typed) if (found.has(blank)) found.get(blank).value = text;
  const note = id ? document.getElementById(id)?.querySelector("summary") : null;
  (found.get(focus) ?? note ?? (focus ? document.querySelector("main") : null))?.focus({ preventScroll: true });
  scrollTo({ top: y, behavior: "instant" });
}

const read = async (answer) => new DOMParser().parseFromString(await answer.text(), "text/html");

/** Send the letter as it stands, put the answer's main part in its place. */
async function rewrite(button) {
  const body = new URLSearchParams(new FormData(form()));
  if (button?.name) body.append(button.name, button.value);
  const sent = new Map(blanks().map((blank) => [mark(blank), blank.value]));
  // Sent to the end even if the reader follows a link meanwhile; the Fetch standard allows that for 64 KiB.
  const keepalive = body.toString().length < 60_000;
  const answer = await fetch(form().action, { method: "POST", body, keepalive });
  let page = await read(answer);
  // A plan that takes its time: the old letter stays until the new one is there.
  while (page.querySelector("main form.working")) {
    heard.textContent = page.querySelector("main p").textContent;
    await new Promise((done) => setTimeout(done, 500));
    page = await read(await fetch(answer.url));
  }
  const fresh = page.querySelector("main");
  if (!fresh?.querySelector("form:not(.first)")) throw new Error("no letter came back");
  const left = leave(sent);
  swapping = true;
  document.querySelector("main").replaceChildren(...fresh.childNodes);
  swapping = false;
  document.title = page.title;
  // A page that is being left keeps its way: a new address would call the reader back.
  if (!leaving) history.replaceState(null, "", answer.url);
  comeBack(left);
  const said = document.querySelector("main .really, main .told");
  heard.textContent = said ? said.textContent : "The letter is rewritten.";
}

let leaving = false;
addEventListener("beforeunload", () => (leaving = true));
addEventListener("pageshow", () => (leaving = false));

let swapping = false;
let pressing = false;
let queue = Promise.resolve();

/** One after the other, so that no letter is older than the book. If anything fails the button comes back. */
function soon(button) {
  queue = queue.then(() => rewrite(button)).catch(() => {
    live.remove("live");
    heard.textContent = "I could not rewrite the letter at once. The button at its end still does.";
  });
}

const changed = (blank) =>
  blank.tagName === "SELECT" ? ![...blank.options].some((o) => o.selected && o.defaultSelected) : blank.value !== blank.defaultValue;

document.addEventListener("change", (event) => {
  if (!swapping && live.contains("live") && event.target.matches("main form select.blank")) soon();
});

document.addEventListener("focusout", (event) => {
  if (swapping || !live.contains("live") || !event.target.matches("main form input.blank")) return;
  // A button that is being pressed sends the form itself.
  if (changed(event.target) && !pressing) soon();
});

document.addEventListener("pointerdown", (event) => (pressing = Boolean(event.target.closest?.("main form button"))));
document.addEventListener("click", () => (pressing = false));
document.addEventListener("keydown", () => (pressing = false));

document.addEventListener("submit", (event) => {
  // What is only to be read goes by GET, as without script.
  if (event.target !== form() || !live.contains("live") || event.submitter?.formMethod === "get") return;
  event.preventDefault();
  soon(event.submitter);
});

// A number's letter opens its note in place: nothing typed is lost.
document.addEventListener("click", (event) => {
  const out = event.target.closest?.("a.out");
  const note = out && document.getElementById(out.hash.slice(1));
  if (!note || event.metaKey || event.ctrlKey || event.shiftKey) return;
  event.preventDefault();
  note.open = true;
  note.querySelector("summary").focus({ preventScroll: true });
  note.scrollIntoView({ block: "nearest" });
});

if (form()) live.add("live");
