// Numbers that an answer changed say so: a mark, what they were, and one polite sentence.
// The numbers are held against those before the edit began: a value is tried while it is typed and
// then kept, and what the trial changed must still be marked when the same value is kept.
let before = null;
let fresh = true;
let swapped = false;

export function watchChanges() {
  document.addEventListener("htmx:beforeSwap", ({ detail }) => {
    if (!detail.xhr.getResponseHeader("X-Serial") || !detail.shouldSwap) return;
    if (fresh) before = snapshot();
    fresh = false;
    swapped = true;
  });
  document.addEventListener("htmx:afterRequest", ({ detail }) => {
    if (!swapped) return;
    swapped = false;
    const changed = mark(before);
    const verdict = text("verdict");
    if (changed || verdict !== before.get("verdict")) say(verdict, changed);
    fresh = String(detail.requestConfig?.parameters?.keep) !== "false";
  });
}

function text(id) {
  return document.getElementById(id)?.textContent.trim() ?? "";
}

function snapshot() {
  const found = new Map([["verdict", text("verdict")]]);
  for (const e of document.querySelectorAll("[data-number]")) found.set(e.id, e.textContent.trim());
  return found;
}

function mark(was) {
  let changed = 0;
  for (const e of document.querySelectorAll("[data-number]")) {
    const old = was.get(e.id);
    const differs = old !== undefined && old !== e.textContent.trim();
    e.classList.toggle("changed", differs);
    const note = e.closest(".chip")?.querySelector(".word") ?? e;
    if (differs) note.dataset.was = `was ${old}`;
    else delete note.dataset.was;
    if (differs && e.dataset.means) changed += 1;
  }
  return changed;
}

export function say(sentence, changed = 0) {
  const margins = changed === 1 ? " One margin changed." : changed ? ` ${changed} margins changed.` : "";
  document.getElementById("said").textContent = sentence + margins;
}
