// Only in the preview: asks each second whether a file has been saved, and shows the page again.
const script = document.currentScript;
async function look() {
  try {
    const answer = await fetch(new URL('preview-stamp', script.src), {cache: 'no-store'});
    if (answer.ok && await answer.text() !== document.documentElement.dataset.stamp) location.reload();
  } catch { /* the preview has been stopped; what is shown stays */ }
}
setInterval(look, 1000);
