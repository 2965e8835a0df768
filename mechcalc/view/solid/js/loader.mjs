// What a widget's saved state holds of the solid view: fetch the code from Python once a page, then hand over to it.

const version = "VERSION";
const pages = globalThis[Symbol.for("mechcalc.solid")] ??= {};   // version to {ready, resolve, wait, asked}

// The code, shared by all views of the page. One asks for it; should no answer come (that view was closed, or the kernel
// is busy for long), another asks again, ever more patiently.
function codeFor(model, signal) {
  const page = pages[version] ??= {wait: 5000, asked: -Infinity};
  page.ready ??= new Promise((resolve) => { page.resolve = resolve; });
  const heard = async (message) => {
    if (message?.solid !== version) return;
    const address = URL.createObjectURL(new Blob([message.code], {type: "text/javascript"}));
    page.resolve({...await import(address), styles: message.styles});
  };
  const ask = () => {
    if (performance.now() - page.asked < page.wait) return;
    if (page.asked > 0) page.wait *= 2;
    page.asked = performance.now();
    model.send({fetch: version});
  };
  const again = setInterval(ask, 2500);
  const settle = () => {
    clearInterval(again);
    model.off("msg:custom", heard);
  };
  model.on("msg:custom", heard);
  ask();
  signal.addEventListener("abort", settle);
  page.ready.then(settle);
  return page.ready;
}

function render({model, el}) {
  const stop = new AbortController();
  const wait = document.createElement("p");
  wait.textContent = "The solid view comes from Python. It appears once this notebook's kernel runs and is free.";
  el.append(wait);
  let close = null;
  codeFor(model, stop.signal).then(({renderSolid, styles}) => {
    if (stop.signal.aborted) return;
    wait.remove();
    const look = document.createElement("style");
    look.textContent = styles;
    el.append(look);
    close = renderSolid({model, el});
  });
  return () => {
    stop.abort();
    close?.();
    el.textContent = "";
  };
}

export default {render};
