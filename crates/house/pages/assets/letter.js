// The small module: rewrites the letter at once. Everything works without it; it only saves the button and the reload.

const form = () => document.querySelector("main form");
const heard = document.getElementById("heard");
const live = document.documentElement.classList;

/** Where the reader was: the focused field (by name and turn), its selection, the open notes, the place on the page. */
function place() {
  const at = document.activeElement;
  const named = at?.name ? [...form().elements].filter((e) => e.name === at.name && e.tagName === at.tagName) : [];
  return {
    name: at?.name, tag: at?.tagName, turn: named.indexOf(at), id: at?.id,
    open: [...document.querySelectorAll("main details[open]")].map((d) => d.id),
    closed: [...document.querySelectorAll("main details:not([open])")].map((d) => d.id),
    y: scrollY,
  };
}

function back({ name, tag, turn, id, open, closed, y }) {
  for (const note of open) document.getElementById(note)?.setAttribute("open", "");
  for (const note of closed) document.getElementById(note)?.removeAttribute("open");
  const named = name ? [...form().elements].filter((e) => e.name === name && e.tagName === tag) : [];
  const target = named[turn] ?? (id && document.getElementById(id)) ?? null;
  target?.focus({ preventScroll: true });
  scrollTo({ top: y, behavior: "instant" });
}

let turn = 0;

/** Send the letter, take the answer's main part. `where`: to come back to the same place. */
async function rewrite(button) {
  const mine = ++turn;
  const body = new URLSearchParams(new FormData(form(), button ?? undefined));
  const answer = await fetch(form().action, { method: "POST", body });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (mine !== turn) return;
  const fresh = page.querySelector("main");
  if (!fresh?.querySelector("form")) throw new Error("no letter came back");
  const was = place();
  document.querySelector("main").replaceChildren(...fresh.childNodes);
  document.title = page.title;
  history.replaceState(null, "", answer.url);
  back(was);
  const told = document.querySelector("main .really, main .told");
  heard.textContent = told ? told.textContent : "The letter is rewritten.";
}

/** If anything goes wrong the form is sent as it always could be. */
async function attempt(button) {
  try {
    await rewrite(button);
  } catch {
    live.remove("live");
    heard.textContent = "I could not rewrite the letter at once. The button at its end still does.";
  }
}

document.addEventListener("change", (event) => {
  if (event.target.matches("main form .blank")) attempt();
});

document.addEventListener("submit", (event) => {
  if (event.target !== form()) return;
  event.preventDefault();
  attempt(event.submitter);
});

// A number's letter opens its note in place: nothing typed is lost.
document.addEventListener("click", (event) => {
  const out = event.target.closest?.("a.out");
  const note = out && document.getElementById(out.hash.slice(1));
  if (!note || event.metaKey || event.ctrlKey || event.shiftKey) return;
  event.preventDefault();
  note.open = true;
  note.querySelector("summary").focus();
  note.scrollIntoView({ block: "nearest" });
});

if (form()) live.add("live");
