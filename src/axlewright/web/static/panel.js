// The working of a number in a panel at the side: a press opens it, Escape closes it, focus goes
// there and comes back.
export function watchPanel() {
  const panel = document.getElementById("panel");
  if (!panel) return;
  const title = document.getElementById("panel-title");
  let opener = "";
  let pressed = null;
  let loaded = "";

  const load = async (number) => {
    loaded = document.body.dataset.revision;
    const build = document.body.dataset.build;
    await window.htmx.ajax("GET", `/builds/${build}/${pressed?.dataset.from ?? "load-path"}/working?number=${encodeURIComponent(number)}`, {
      target: "#working", swap: "innerHTML",
    });
  };

  const open = async (button) => {
    for (const b of document.querySelectorAll("[aria-expanded]")) b.removeAttribute("aria-expanded");
    button.setAttribute("aria-expanded", "true");
    opener = button.dataset.working;
    pressed = button;
    panel.hidden = false;
    document.body.classList.add("with-panel");
    await load(opener);
    title.focus();
  };

  const close = () => {
    panel.hidden = true;
    document.body.classList.remove("with-panel");
    for (const b of document.querySelectorAll("[aria-expanded]")) b.removeAttribute("aria-expanded");
    const again = pressed?.isConnected
      ? pressed
      : document.querySelector(`[data-working="${CSS.escape(opener)}"]`);
    again?.focus();
  };

  document.addEventListener("click", ({ target }) => {
    const button = target.closest("button[data-working]");
    if (button) open(button);
    const balloon = target.closest('[id^="path-balloon-"]');
    if (balloon) document.getElementById(balloon.id.replace("path-balloon-", "open-"))?.click();
  });
  document.getElementById("panel-close").addEventListener("click", close);
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !panel.hidden) close();
  });

  // The working on show follows the build.
  document.addEventListener("htmx:afterRequest", () => {
    if (!panel.hidden && loaded !== document.body.dataset.revision) load(opener);
  });
  document.addEventListener("htmx:responseError", ({ detail }) => {
    if (detail.target?.id !== "working") return;
    const page = new DOMParser().parseFromString(detail.xhr.responseText, "text/html");
    detail.target.textContent = page.querySelector(".lead")?.textContent ?? "There is no working.";
  });

  // A job that ends takes its stop button along: focus stays near.
  let near = false;
  document.addEventListener("htmx:beforeSwap", ({ detail }) => {
    near = detail.target?.id === "fine" && detail.target.contains(document.activeElement);
  });
  document.addEventListener("htmx:afterSettle", ({ detail }) => {
    if (!near || detail.target?.id !== "fine" || detail.target.contains(document.activeElement)) return;
    near = false;
    (document.querySelector("#job button") ?? document.getElementById("fine-title")).focus();
  });
}
