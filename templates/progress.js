const place = document.querySelector("[data-progress]");
if (place !== null) {
  const news = new EventSource(place.dataset.progress);
  news.addEventListener("message", ({ data }) => {
    const { text, done } = JSON.parse(data);
    place.textContent = text;
    if (!done) return;
    news.close();
    location.reload();
  });
}
