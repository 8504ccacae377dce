// Has the release kept on the device (web/service-worker.js), and says when that is done and when
// a newer one waits. A newer one starts only when that is asked for.
import { trusted } from './trusted.js';

const byId = (id) => document.getElementById(id);

/** Shows one of the texts in index.html, in place of any other. */
function say(text) {
  for (const each of document.querySelectorAll('.device')) each.hidden = each.id !== text;
}

/** Without a service worker, or without room for it, this is a page like any other. */
export async function keepOnDevice() {
  const container = navigator.serviceWorker;
  if (!container) return;
  let isKept = Boolean(container.controller);
  let isAsked = false;
  container.addEventListener('controllerchange', () => {
    if (isAsked) location.reload();
    else say(isKept ? 'device-other' : 'device-ready');
    isKept = true;
  });
  for (const close of document.querySelectorAll('.device-close')) {
    close.addEventListener('click', () => say(null));
  }
  byId('device-reload').addEventListener('click', () => location.reload());

  const registration = await container.register(trusted.createScriptURL('./service-worker.js')).catch(() => null);
  if (!registration) return;
  registration.active?.postMessage('loaded');
  byId('device-start').addEventListener('click', () => {
    // Another tab may have been quicker.
    if (!registration.waiting) return location.reload();
    isAsked = true;
    registration.waiting.postMessage('take over');
  });
  if (registration.waiting) say('device-newer');
  registration.addEventListener('updatefound', () => {
    const { installing, active } = registration;
    installing.addEventListener('statechange', () => {
      if (active && installing.state === 'installed') say('device-newer');
    });
  });
}
