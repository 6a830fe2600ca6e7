// The connection to the workbench: said at once when it is lost, edits kept until it is back, and a
// word when somebody else has changed the build.
const EVERY = 4000;
const AGAIN = 1000;

export function watchConnection() {
  const lost = document.getElementById("lost");
  const build = document.body.dataset.build;
  const kept = new Map(); // field -> resend
  let away = false;
  let locked = false;
  let timer = 0;

  const show = () => {
    const count = kept.size;
    if (lost.dataset.said === `${locked} ${count}`) return;
    lost.dataset.said = `${locked} ${count}`;
    const edits = count === 1 ? "Your edit is" : `Your ${count} edits are`;
    if (locked) {
      const open = Object.assign(document.createElement("a"), {
        href: "/unlock", target: "_blank", textContent: "Open it in another tab",
      });
      lost.replaceChildren("The workbench asks for its passphrase again. ", open, count
        ? `. ${edits} kept on this page and sent then: leave the page open.` : ".");
    } else {
      lost.textContent = "Lost the connection to the workbench." + (count
        ? ` ${edits} kept on this page and sent when it is back: leave the page open.`
        : " It is tried again every second.");
    }
    lost.hidden = false;
  };

  const pulse = async () => {
    clearTimeout(timer);
    try {
      const answer = await fetch(build ? `/builds/${build}/pulse` : "/", {
        cache: "no-store", signal: AbortSignal.timeout(EVERY),
      });
      locked = answer.status === 401;
      if (locked || answer.status >= 500) gone();
      else {
        back();
        if (build && answer.ok) elsewhere((await answer.json()).revision);
      }
    } catch {
      locked = false;
      gone();
    }
    clearTimeout(timer);
    timer = setTimeout(pulse, away ? AGAIN : EVERY);
  };

  const gone = () => {
    if (!away) {
      away = true;
      clearTimeout(timer);
      timer = setTimeout(pulse, AGAIN);
    }
    show();
  };

  const back = () => {
    if (!away) return;
    away = false;
    lost.hidden = true;
    lost.textContent = "";
    delete lost.dataset.said;
    for (const [field, resend] of [...kept]) {
      kept.delete(field);
      resend();
    }
  };

  document.addEventListener("htmx:responseError", ({ detail }) => {
    if (detail.xhr.status !== 401) return;
    locked = true;
    gone();
  });
  document.addEventListener("htmx:sendError", gone);
  document.addEventListener("htmx:timeout", gone);
  window.addEventListener("offline", () => pulse());
  window.addEventListener("online", () => pulse());
  document.addEventListener("visibilitychange", () => document.hidden || pulse());
  window.addEventListener("beforeunload", (event) => kept.size && event.preventDefault());
  timer = setTimeout(pulse, EVERY);

  return {
    keep: (field, resend) => {
      kept.set(field, resend);
      gone();
    },
    sent: (field) => kept.delete(field),
  };
}

function elsewhere(revision) {
  const mine = Number(document.body.dataset.revision);
  if (!(revision > mine) || document.querySelector(".htmx-request")) return;
  const keeping = document.getElementById("keeping");
  if (keeping.dataset.seen === String(revision)) return;
  keeping.dataset.seen = String(revision);
  const link = document.createElement("a");
  link.href = location.pathname;
  link.textContent = "Load it";
  keeping.replaceChildren(`Changed elsewhere: revision ${revision}. `, link);
}
