// The workbench in the browser. The server renders every page; this keeps edits safe and marks
// what changed. Each part below stands alone.
import "./patch.js";
import { watchCharts } from "./charts.js";
import { watchChanges } from "./changes.js";
import { watchConnection } from "./connection.js";
import { watchFields } from "./fields.js";
import { watchPanel } from "./panel.js";
import { watchPictures } from "./pictures.js";

const connection = watchConnection();
watchFields(connection);
watchChanges();
watchPanel();
watchPictures();
watchCharts();

const theme = document.getElementById("theme");
theme.value = document.documentElement.dataset.theme ?? "";
theme.addEventListener("change", () => {
  if (theme.value) document.documentElement.dataset.theme = theme.value;
  else delete document.documentElement.dataset.theme;
  const days = theme.value ? 400 : 0;
  document.cookie = `theme=${theme.value}; path=/; max-age=${days * 86400}; samesite=strict`;
});
document.documentElement.dataset.ready = "yes";
