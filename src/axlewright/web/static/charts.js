// Charts come finished from the server; this makes them larger on demand, and shows on a touch
// screen what a mouse is shown by hovering (the titles inside the picture).
const STEP = 1.5;
const MOST = 6;
const TIP = 4000;

export function watchCharts() {
  const dialog = document.getElementById("zoom");
  if (!dialog) return;
  const stage = document.getElementById("zoom-stage");
  let home = null;
  let scale = 1;

  const size = (wanted) => {
    scale = Math.min(MOST, Math.max(1, wanted));
    stage.firstElementChild.style.width = `${scale * 100}%`;
    document.getElementById("zoom-out").disabled = scale === 1;
    document.getElementById("zoom-in").disabled = scale === MOST;
  };

  document.addEventListener("click", ({ target }) => {
    const button = target.closest("[data-zoom]");
    if (!button) return;
    home = button.closest("figure").querySelector(".chart");
    document.getElementById("zoom-title").textContent = button.dataset.zoom;
    stage.replaceChildren(home.firstElementChild);
    dialog.showModal();
    size(1);
  });
  document.getElementById("zoom-in").addEventListener("click", () => size(scale * STEP));
  document.getElementById("zoom-out").addEventListener("click", () => size(scale / STEP));
  document.getElementById("zoom-close").addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => {
    const picture = stage.firstElementChild;
    picture.style.width = "";
    home.replaceChildren(picture);
  });

  const tip = document.getElementById("tip");
  let timer = 0;
  document.addEventListener("pointerup", (event) => {
    tip.hidden = true;
    if (event.pointerType !== "touch") return;
    const said = event.target.closest?.(".chart g:has(> title), #zoom-stage g:has(> title)")
      ?.querySelector(":scope > title")?.textContent;
    if (!said) return;
    tip.textContent = said;
    tip.hidden = false;
    tip.style.top = `${Math.max(8, event.clientY - tip.offsetHeight - 16)}px`;
    tip.style.left = `${Math.max(8, Math.min(event.clientX, innerWidth - tip.offsetWidth - 8))}px`;
    clearTimeout(timer);
    timer = setTimeout(() => { tip.hidden = true; }, TIP);
  });
}
