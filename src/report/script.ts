/**
 * The page's one script: lays the after picture over the before picture behind a slider, and switches outlines. It makes no request
 * and changes styles through the object model only, as the page's policy demands.
 */
export const SCRIPT = `
document.documentElement.classList.add("scripted");
for (const slider of document.querySelectorAll(".slider")) {
  const [after, before] = ["after", "before"].map((name) => {
    const picture = document.getElementById(slider.dataset.pair + "-" + name).cloneNode();
    picture.removeAttribute("id");
    picture.alt = "";
    return picture;
  });
  slider.querySelector(".stage").append(after, before);
  const range = slider.querySelector("input");
  const show = () => {
    before.style.clipPath = "inset(0 " + (100 - range.value) + "% 0 0)";
    range.setAttribute("aria-valuetext", "left " + range.value + " % before, the rest after");
  };
  range.addEventListener("input", show);
  show();
}
for (const box of document.querySelectorAll("[data-part]")) {
  const show = () => {
    for (const part of document.getElementsByClassName(box.dataset.part)) part.classList.toggle("shown", box.checked);
  };
  box.addEventListener("change", show);
  show();
}
`;
