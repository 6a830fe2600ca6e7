// Scrub through one launch: the slider moves the numbers and bars of the picture and the line in
// the charts. The server draws both; this only sets what changes. When a march ends, it is said.
import { say } from "./changes.js";

async function follow() {
  const story = document.getElementById("story");
  if (!story || story.dataset.ready) return;
  story.dataset.ready = "waiting";
  const answer = await fetch(story.dataset.moments);
  if (!answer.ok) return;
  const told = await answer.json();
  const slider = document.getElementById("time");
  const said = document.getElementById("time-said");
  const places = told.places.map((p) => {
    const label = document.getElementById(`moment-at-${p.key}`);
    return { ...p, text: label.querySelector(".at-number"), bar: label.querySelector(".at-bar") };
  });
  const cursor = document.getElementById("time-chart-cursor");
  const { left, right } = told.cursor;
  const first = told.time[0];
  const whole = told.time.at(-1) - first;

  const show = () => {
    const i = Number(slider.value);
    for (const p of places) {
      const value = p.values[i];
      const length = p.scale * value;
      p.text.textContent = figure(value);
      p.bar.setAttribute("x", p.zero + Math.min(length, 0));
      p.bar.setAttribute("width", Math.abs(length));
    }
    const ring = places.find((p) => p.key === "ring");
    const time = `${told.time[i].toFixed(3)} s`;
    said.textContent = time;
    slider.setAttribute("aria-valuetext", `${time}, ring gear ${figure(ring.values[i])} ${ring.unit}`);
    cursor.setAttribute("transform", `translate(${(right - left) * (told.time[i] - first) / whole} 0)`);
  };
  slider.addEventListener("input", show);
  show();
  story.dataset.ready = "yes";
}

// As the server writes it: tens from a thousand on, a true minus sign.
function figure(value) {
  const rounded = Math.abs(value) >= 1000 ? Math.round(value / 10) * 10 : Math.round(value);
  return rounded ? rounded.toLocaleString("en-US").replace("-", "\u2212") : "0";
}

let marching = Boolean(document.getElementById("march-job"));
let near = false;
document.addEventListener("htmx:beforeSwap", ({ detail }) => {
  if (detail.target?.id === "march") near = detail.target.contains(document.activeElement);
});
document.addEventListener("htmx:afterSettle", ({ detail }) => {
  follow();
  if (detail.target?.id !== "march") return;
  const done = document.getElementById("launch-sentence");
  if (marching && done) say(`The launch is marched. ${done.textContent}`);
  marching = !done;
  if (near && !detail.target.contains(document.activeElement)) {
    (document.querySelector("#march button") ?? document.getElementById("launch-title")).focus();
  }
  near = false;
});
follow();
