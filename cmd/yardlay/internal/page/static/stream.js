// One stream for each job, however many pages show it: a browser opens six connections to
// one place and no more. The page that has the lock has the stream, and passes on what it
// hears; when it is closed, the next one gets the lock.

// follow calls heard(name, version) for each version of what the names stand for, and
// alive(answers) when the program stops to answer, or does again.
export function follow(address, names, heard, alive) {
  const channel = new BroadcastChannel(address);
  const last = new Map();
  let up = true;
  let leads = false;
  let over = false;

  function take(told) {
    if (told.name) {
      if (last.get(told.name) === told.version) return;
      last.set(told.name, told.version);
      heard(told.name, told.version);
    } else if (told.up !== undefined) {
      if (told.up !== up) alive(told.up);
      up = told.up;
    } else if (leads) { // a page that was just opened asks
      for (const [name, version] of last) channel.postMessage({ name, version });
      channel.postMessage({ up });
    }
  }
  const tell = (told) => {
    take(told);
    channel.postMessage(told);
  };
  function open() {
    if (over) return;
    const stream = new EventSource(address);
    for (const name of names) stream.addEventListener(name, (event) => tell({ name, version: Number(event.data) }));
    stream.onopen = () => tell({ up: true });
    stream.onerror = () => {
      if (over) return;
      tell({ up: false });
      if (stream.readyState === EventSource.CLOSED) setTimeout(open, 5000); // it was refused
    };
  }

  channel.onmessage = (event) => take(event.data);
  navigator.locks.request(address, () => new Promise(() => {
    leads = true;
    open();
  }));
  channel.postMessage({});
  addEventListener("pagehide", () => { over = true; });
  addEventListener("pageshow", (event) => { // gone back to: what it shows is old
    if (event.persisted) location.reload();
  });
}
