// Where the terminal connects to, and how large its letters are: 40 columns on a phone held upright.
const terminal = document.getElementById("terminal");
terminal.dataset.sessionWebsocketUrl = "ws://" + location.host + "/ws";
const columns = 41;
const widest = 0.6; // of a letter, in parts of its height
const fits = Math.floor(window.innerWidth / columns / widest);
terminal.dataset.fontSize = String(Math.max(9, Math.min(16, fits)));
document.getElementById("again").addEventListener("click", () => location.reload());
// Keys go to the app from its first picture on; on a phone a tap brings up the keyboard.
new MutationObserver((_, watch) => {
  const keys = document.querySelector(".xterm-helper-textarea");
  if (keys && document.body.classList.contains("-first-byte")) {
    watch.disconnect();
    keys.focus();
  }
}).observe(document.body, { attributes: true });
