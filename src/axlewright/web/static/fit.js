// The slider drives the wheels of the picture through their travel. The server works everything
// out and draws it; this only moves what moves and sets the numbers of that step.
const slider = document.getElementById("travel");
const way = document.getElementById("way");
const said = document.getElementById("travel-said");
const scrub = document.getElementById("scrub");

function show() {
  const rear = document.getElementById("rear");
  const told = rear?.dataset.travel ? JSON.parse(rear.dataset.travel) : null;
  if (!scrub) return;
  scrub.hidden = !told;
  if (!told) return;
  const steps = told[way.value];
  slider.max = String(steps.length - 1);
  const step = Math.min(Number(slider.value), steps.length - 1);
  const left = steps[step];
  const right = way.value === "lean" ? -left : left;
  const axle = document.getElementById("rear-axle");
  const tilt = Math.asin(Math.max(-1, Math.min(1, (left - right) / told.track))) * 180 / Math.PI;
  const rise = -told.scale * (left + right) / 2;
  axle?.setAttribute("transform", `translate(0 ${rise.toFixed(3)}) rotate(${tilt.toFixed(3)} 130 66)`);
  const words = [];
  for (const curve of told.curves) {
    const text = document.querySelector(`#rear-gap-${curve.id} .gap`);
    const value = curve[way.value][step];
    if (text) text.textContent = `${value.toFixed(2)} in`;
    const short = value < curve.wanted ? ", SHORT" : "";
    words.push(`${curve.id.replace("outer-", "lip ").replace("inner-", "inboard ")} ${value.toFixed(2)} in${short}`);
  }
  const place = where(left);
  said.textContent = way.value === "lean" && left !== 0 ? `left ${place}, right the other way` : place;
  slider.setAttribute("aria-valuetext", `${said.textContent}: ${words.join("; ")}`);
}

function where(travel) {
  if (Math.abs(travel) < 0.005) return "ride height";
  const mm = Math.abs(travel * 25.4).toFixed(0);
  return `${Math.abs(travel).toFixed(2)} in (${mm} mm) ${travel > 0 ? "up" : "down"}`;
}

slider?.addEventListener("input", show);
way?.addEventListener("change", show);
for (const event of ["htmx:oobAfterSwap", "htmx:afterSettle", "htmx:afterRequest"]) document.addEventListener(event, show);
show();
