"use strict";
// The answer keeps up while the choices move.
(() => {
  const form = byId("choices");
  let busy = false, again = false;
  const keepUp = async () => {
    if (busy) {
      again = true;
      return;
    }
    busy = true;
    do {
      again = false;
      const query = queryOf(form);
      const text = await textAt(`${form.dataset.answer}?${query}`);
      if (again) continue;
      keepOpen(text);
      here(query);
      beside(form, document.querySelector("#answer [data-at]"));
    } while (again);
    busy = false;
  };
  const MM = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 };
  const mm = (words) => {
    const [, figure, unit] = words.trim().match(/^([\d.]+)\s*(mm|cm|m|in|ft)$/) ?? [];
    return figure * MM[unit];
  };
  for (const field of form.querySelectorAll("[data-steps]")) {
    const steps = field.dataset.steps.split("|");
    const slider = document.createElement("input");
    Object.assign(slider, { type: "range", min: 0, max: steps.length - 1 });
    slider.setAttribute("aria-label", `${field.labels[0].textContent}, slide`);
    const follow = () => {
      const far = steps.map((step) => Math.abs(mm(step) - mm(field.value)));
      const nearest = far.indexOf(Math.min(...far));
      if (nearest >= 0) slider.value = nearest;
      slider.setAttribute("aria-valuetext", field.value);
    };
    follow();
    field.addEventListener("input", follow);
    slider.addEventListener("input", () => {
      field.value = steps[slider.value];
      follow();
    });
    field.after(slider);
  }
  form.addEventListener("input", keepUp);
})();
