// The slider says its height at once; the picture follows from the server. An answer to an edit
// that was made meanwhile brings the slider's ends along.
const said = () => document.getElementById("travel-said");

document.addEventListener("input", ({ target }) => {
  if (target.id !== "travel") return;
  const inches = Number(target.value);
  const way = inches > 0 ? "up" : "down";
  const words = Math.abs(inches) < 0.005 ? "ride height" : `${short(Math.abs(inches))} in ${way}`;
  said().textContent = words;
  target.setAttribute("aria-valuetext", words);
});

// Two digits, as the server writes it.
function short(inches) {
  return String(Number(inches.toPrecision(2)));
}
