// Save a chart as PNG: the server's SVG, painted here at three times its size.
const SCALE = 3;

export function watchPictures() {
  document.addEventListener("click", async ({ target }) => {
    const button = target.closest("[data-png]");
    if (!button) return;
    const picture = new Image();
    picture.src = button.dataset.png;
    await picture.decode();
    const canvas = document.createElement("canvas");
    canvas.width = picture.naturalWidth * SCALE;
    canvas.height = picture.naturalHeight * SCALE;
    const paper = canvas.getContext("2d");
    paper.fillStyle = "#ffffff";
    paper.fillRect(0, 0, canvas.width, canvas.height);
    paper.drawImage(picture, 0, 0, canvas.width, canvas.height);
    canvas.toBlob((blob) => {
      const link = document.createElement("a");
      link.href = URL.createObjectURL(blob);
      link.download = `${button.dataset.name}.png`;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    });
  });
}
