// Entry of every page. The page is complete without it; all that it adds comes when the page can be read.
import("./start").catch((cause: unknown) => {
  console.error(cause);
  // The worked answers stand in the page, but nothing can be entered.
  for (const answer of document.querySelectorAll(".calculator .answer")) {
    const line = document.createElement("p");
    line.className = "waiting";
    line.textContent = "The calculators did not load, so this is the worked example only. Load the page again, with a network.";
    answer.before(line);
  }
});
