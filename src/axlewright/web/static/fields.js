// Fields of the Car page: an edit is tried while it is typed and kept when the field is left. The
// field that is being edited is never swapped; answers that come late are dropped.
const TYPING = 350;

let serial = 0;
let applied = 0;

export function watchFields(connection) {
  const tried = new WeakMap();
  const timers = new WeakMap();
  const fieldOf = (e) => (e instanceof Element && e.matches("[data-path]") ? e : null);

  document.getElementById("inputs")?.addEventListener("submit", (event) => event.preventDefault());

  document.addEventListener("input", ({ target }) => {
    const field = fieldOf(target);
    if (!field || field.tagName !== "INPUT") return;
    clearTimeout(timers.get(field));
    timers.set(field, setTimeout(() => {
      if (field.value === field.dataset.kept || field.classList.contains("htmx-request")) return;
      tried.set(field, field.value);
      window.htmx.trigger(field, "attempt");
    }, TYPING));
  });

  document.addEventListener("change", ({ target }) => {
    const field = fieldOf(target);
    if (field) clearTimeout(timers.get(field));
  }, true);

  // Typed back to what it was: no change is told of, but the trial has to be taken back.
  document.addEventListener("focusout", ({ target }) => {
    const field = fieldOf(target);
    if (!field || !tried.has(field)) return;
    clearTimeout(timers.get(field));
    tried.delete(field);
    if (field.value === field.dataset.kept) window.htmx.trigger(field, "resend");
  });

  document.addEventListener("htmx:configRequest", ({ detail }) => {
    const field = fieldOf(detail.elt);
    if (!field) return;
    serial += 1;
    const keep = detail.triggeringEvent?.type !== "attempt";
    Object.assign(detail.parameters, {
      path: field.dataset.path, value: field.value, base: document.body.dataset.revision,
      serial: String(serial), keep: String(keep),
    });
    field.dataset.sent = field.value;
    field.dataset.keeping = String(keep);
  });

  document.addEventListener("htmx:beforeSwap", ({ detail }) => {
    const number = Number(detail.xhr.getResponseHeader("X-Serial") ?? 0);
    const revision = Number(detail.xhr.getResponseHeader("X-Revision") ?? 0);
    if (!number) return;
    if (number < applied || revision < Number(document.body.dataset.revision)) {
      detail.shouldSwap = false;
      return;
    }
    applied = number;
    document.body.dataset.revision = String(revision);
  });

  document.addEventListener("htmx:afterRequest", ({ detail }) => {
    const field = fieldOf(detail.elt);
    if (!field) return;
    const keep = field.dataset.keeping === "true";
    if (detail.successful) {
      if (keep) settle(field, connection);
    } else if (keep && (detail.xhr.status === 401 || !(detail.xhr.status >= 400 && detail.xhr.status < 500))) {
      field.classList.add("unsent");
      connection.keep(field, () => window.htmx.trigger(field, "resend"));
    } else if (keep) {
      complain(field, detail.xhr);
    }
    invalid();
  });

  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-field]");
    const target = link && document.getElementById(`in-${link.dataset.field}`);
    if (!target) return;
    event.preventDefault();
    target.closest("details")?.setAttribute("open", "");
    target.focus();
    target.scrollIntoView({ block: "center" });
  });
}

function settle(field, connection) {
  field.dataset.kept = field.dataset.sent;
  field.classList.remove("unsent");
  connection.sent(field);
  for (const { dataset } of document.querySelectorAll("#elsewhere [data-path]")) {
    const other = document.getElementById("inputs").querySelector(`[data-path="${dataset.path}"]`);
    if (!other || other === document.activeElement || other.classList.contains("unsent")) continue;
    other.value = dataset.value;
    other.dataset.kept = dataset.value;
  }
  document.getElementById("elsewhere").replaceChildren();
  freshen();
}

// The text of the build follows the fields, unless somebody is writing in it.
function freshen() {
  const now = document.getElementById("text-now");
  const text = document.getElementById("text-field");
  if (!text || !now.dataset.revision || text.value !== text.defaultValue) return;
  text.defaultValue = now.textContent;
  text.value = now.textContent;
  document.getElementById("text-base").value = now.dataset.revision;
}

// What the server refused outright: its words beside the field.
function complain(field, xhr) {
  const page = new DOMParser().parseFromString(xhr.responseText, "text/html");
  const said = page.querySelector(".lead")?.textContent ?? "this was refused";
  field.closest(".field").querySelector(".error").textContent = said;
}

function invalid() {
  for (const field of document.querySelectorAll(".field")) {
    const wrong = field.querySelector(".error")?.textContent && !field.querySelector(".error .caution");
    const input = field.querySelector("[data-path]");
    if (wrong) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }
}
