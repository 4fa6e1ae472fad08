// Keeps the whole site on the device. Pages and data come from the network where there is one, so that nobody works by an
// old figure; what is named by its content comes from the device. VERSION, FIRST and REST stand above this.
"use strict"

const PREFIX = `cards ${self.registration.scope} `
const CACHE = PREFIX + VERSION
const AT_ONCE = 12

self.addEventListener("install", event => event.waitUntil((async () => {
  const cache = await caches.open(CACHE)
  await cache.addAll(FIRST)
  await self.skipWaiting()
})()))

self.addEventListener("activate", event => event.waitUntil((async () => {
  const old = (await caches.keys()).filter(name => name.startsWith(PREFIX) && name !== CACHE)
  await Promise.all(old.map(name => caches.delete(name)))
  await self.clients.claim()
  await fill(await caches.open(CACHE))
})()))

// All other files, a few at once; what can't be had now comes when it is opened.
async function fill(cache) {
  for (let at = 0; at < REST.length; at += AT_ONCE) {
    await Promise.all(REST.slice(at, at + AT_ONCE).map(path => cache.add(path).catch(() => {})))
  }
}

self.addEventListener("fetch", event => {
  const address = new URL(event.request.url)
  if (event.request.method !== "GET" || !address.href.startsWith(self.registration.scope)) return
  const isFixed = address.pathname.includes("/assets/")
  event.respondWith(isFixed ? fromDevice(event.request) : fromNetwork(event.request))
})

async function fromDevice(request) {
  return await caches.match(request) || fetched(request)
}

async function fromNetwork(request) {
  try {
    return await fetched(request)
  } catch (none) {
    const asked = request.url.endsWith("/") ? `${request.url}index.html` : request.url
    const kept = await caches.match(asked, { ignoreSearch: true })
    if (kept) return kept
    throw none
  }
}

async function fetched(request) {
  const answer = await fetch(request, { cache: "no-cache" })
  if (answer.ok && !request.url.endsWith(".pdf")) (await caches.open(CACHE)).put(request, answer.clone())
  return answer
}
