// Part of the service worker: files that other applications share are kept until the page asks for them.
addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'POST' && new URL(request.url).pathname.endsWith('/shared'))
    event.respondWith(keep(request));
});

async function keep(request) {
  const files = (await request.formData()).getAll('files').filter((file) => file instanceof File);
  const cache = await caches.open('shared');
  for (const [i, file] of files.entries()) {
    const headers = { 'content-type': file.type, 'file-name': encodeURIComponent(file.name) };
    await cache.put(new URL(`shared/${Date.now()}-${i}`, request.url), new Response(file, { headers }));
  }
  return Response.redirect(new URL('./', request.url), 303);
}
