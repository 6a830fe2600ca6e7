// The gear page follows the finger. While a slider moves, one question at a time is asked and only
// the newest answer is shown; what presses under torque is asked for when the finger lets go.
import { say } from "./changes.js";

const form = document.getElementById("mesh-form");
const SLIDERS = ["shim", "backlash", "torque"];

// Asks for the newest state only: while one answer is on its way, later wishes replace each other.
function asker(path, place, shown) {
  let flying = false;
  let next = null;
  let serial = 0;
  const target = () => document.getElementById(place);
  const run = async () => {
    flying = true;
    while (next) {
      const wish = next;
      next = null;
      try {
        const answer = await fetch(`${form.dataset.base}/${path}?${wish.query}`);
        const text = await answer.text();
        if (next) continue; // late: a newer wish is waiting
        if (answer.ok) target().innerHTML = text;
        else refuse(target(), text);
        serial += 1;
        target().dataset.serial = serial;
        shown(answer.ok, wish.released);
      } catch {
        if (!next) refuse(target(), "");
      }
    }
    flying = false;
  };
  return (released) => {
    next = { query: new URLSearchParams(new FormData(form)), released };
    if (!flying) run();
  };
}

function refuse(place, text) {
  const page = new DOMParser().parseFromString(text, "text/html");
  const said = document.createElement("p");
  said.className = "error";
  said.setAttribute("role", "alert");
  said.textContent = page.querySelector(".lead")?.textContent ?? "No answer: is the workbench still running?";
  place.replaceChildren(said);
}

function typed(name, value) {
  return name === "torque" ? `${value} lb·ft` : `${(value / 1000).toFixed(4).replace(/0$/, "")} in`;
}

function stand(name, at, text) {
  const slider = document.getElementById(`${name}-slider`);
  const field = document.getElementById(name);
  if (document.activeElement !== slider) slider.value = at;
  if (document.activeElement !== field) field.value = text;
  slider.setAttribute("aria-valuetext", text);
}

function follow() {
  const under = () => document.getElementById("under");
  const press = asker("under", "under", (ok, released) => {
    under().classList.remove("behind");
    const placed = under().querySelector(".placed");
    if (placed) stand("torque", placed.dataset.torque, placed.dataset.torqueText);
    links();
    if (ok && released) say(under().querySelector("desc")?.textContent ?? "");
  });
  const set = asker("set", "set", (ok, released) => {
    const placed = document.querySelector("#set .placed");
    if (ok && placed) {
      for (const name of ["shim", "backlash"]) stand(name, placed.dataset[name], placed.dataset[`${name}Text`]);
    }
    links();
    if (ok && released) say(`${document.getElementById("set-said").textContent} ${document.querySelector("#set desc")?.textContent ?? ""}`);
  });
  const mapped = () => Boolean(form.dataset.mapped);
  const release = (name) => {
    if (name !== "torque") set(true);
    if (mapped()) {
      under().classList.add("behind");
      press(name === "torque");
    }
  };

  for (const name of SLIDERS) {
    const slider = document.getElementById(`${name}-slider`);
    const field = document.getElementById(name);
    slider.addEventListener("input", () => {
      field.value = typed(name, Number(slider.value));
      slider.setAttribute("aria-valuetext", field.value);
      if (mapped()) under().classList.add("behind");
      if (name !== "torque") set(false);
    });
    slider.addEventListener("change", () => release(name));
    field.addEventListener("change", () => release(name));
  }
  for (const name of ["iron", "support"]) {
    document.getElementById(name).addEventListener("change", () => release("torque"));
  }
  for (const button of document.querySelectorAll("[data-torque]:not(.placed)")) {
    button.addEventListener("click", () => {
      document.getElementById("torque").value = button.dataset.torque;
      document.getElementById("torque-slider").value = Number.parseFloat(button.dataset.torque);
      release("torque");
    });
  }
  form.addEventListener("submit", (event) => event.preventDefault());
  document.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && SLIDERS.includes(event.target.id)) {
      event.preventDefault();
      release(event.target.id);
    }
  });
  links();
  if (under().dataset.wanted) press(false);
  return () => {
    form.dataset.mapped = "yes";
    press(false);
  };
}

// What is saved is what is shown.
function links() {
  const query = new URLSearchParams(new FormData(form));
  for (const name of ["compound", "pressed"]) {
    const link = document.querySelector(`[data-chart="${name}"]`);
    link.href = `${form.dataset.base}/chart/${name}.svg?${query}`;
    link.parentElement.querySelector("[data-png]").dataset.png = `${link.href}&font=true`;
  }
}

const loaded = form ? follow() : null;
let working = Boolean(document.getElementById("mesh-job"));
let near = false;
document.addEventListener("htmx:beforeSwap", ({ detail }) => {
  if (detail.target?.id === "mesh") near = detail.target.contains(document.activeElement);
});
document.addEventListener("htmx:afterSettle", ({ detail }) => {
  if (detail.target?.id !== "mesh") return;
  const done = document.getElementById("mesh-sentence");
  if (working && done) {
    say(`The gear pair is worked out. ${done.textContent}`);
    loaded?.();
  }
  working = !done;
  if (near && !detail.target.contains(document.activeElement)) {
    (document.querySelector("#mesh button") ?? document.getElementById("mesh-title")).focus();
  }
  near = false;
});
document.documentElement.dataset.mesh = "ready";
