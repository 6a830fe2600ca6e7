// Two swaps that change what differs and leave everything else standing: focus, a press that is
// half way, an open disclosure. hx-swap-oob="patch" makes a place like the answer;
// hx-swap-oob="same-ids" hands the pieces of the answer out to the places of the same id.
const htmx = window.htmx;

htmx.defineExtension("patch", {
  isInlineSwap: (style) => style === "patch" || style === "same-ids",
  handleSwap: (style, target, fragment) => {
    const from = fragment.firstElementChild ?? fragment;
    if (style === "patch") children(target, from);
    else if (style === "same-ids") for (const piece of from.children) same(piece);
    else return false;
    return [target];
  },
});

function same(piece) {
  const old = document.getElementById(piece.id);
  if (old) one(old, piece);
}

function children(old, fresh) {
  const wanted = [...fresh.childNodes];
  wanted.forEach((node, i) => {
    const here = old.childNodes[i];
    if (!here) old.append(node);
    else if (alike(here, node)) one(here, node);
    else here.replaceWith(node);
  });
  while (old.childNodes.length > wanted.length) old.lastChild.remove();
}

function alike(a, b) {
  return a.nodeType === b.nodeType && a.nodeName === b.nodeName && (a.id ?? "") === (b.id ?? "");
}

function one(old, fresh) {
  if (old.nodeType !== Node.ELEMENT_NODE) {
    if (old.nodeValue !== fresh.nodeValue) old.nodeValue = fresh.nodeValue;
    return;
  }
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of fresh.attributes) {
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
  children(old, fresh);
}
