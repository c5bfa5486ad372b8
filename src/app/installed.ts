import { tr } from '../words/tr.ts';
import { takeFile } from './files.ts';
import { store } from './store.ts';

interface LaunchParams {
  readonly files?: readonly FileSystemFileHandle[];
}

/** Files that the system hands to the installed application; not every browser has it. */
interface Launches {
  setConsumer: (consumer: (params: LaunchParams) => void) => void;
}

/** Keeps the page for work without a network, and opens what the system hands over. */
export function workInstalled(): void {
  const { launchQueue } = globalThis as { launchQueue?: Launches };
  launchQueue?.setConsumer(({ files }) => {
    for (const handle of files ?? []) void handle.getFile().then(takeFile);
    void offerShared();
  });
  void offerShared();
  // Where it is refused (a private window, say), the page works as long as it is open.
  if (import.meta.env.PROD) void navigator.serviceWorker?.register('./sw.js').catch(() => {});
}

/** Offers to open what another application has shared. It is not opened unasked: any page can send files here. */
async function offerShared(): Promise<void> {
  const files = await sharedFiles();
  if (files.length === 0) return;
  const names = files.map((file) => file.name).join(', ');
  const run = async () => {
    for (const file of files) await takeFile(file);
  };
  store.setState({
    message: {
      text: tr`${names} came from another application and is not opened yet.`,
      kind: 'news',
      action: { words: tr`Open`, run: () => void run() },
    },
  });
}

/** Takes what the service worker has kept, once. */
async function sharedFiles(): Promise<File[]> {
  try {
    const cache = await caches.open('shared');
    const files: File[] = [];
    for (const request of await cache.keys()) {
      const response = await cache.match(request);
      await cache.delete(request);
      const name = decodeURIComponent(response?.headers.get('file-name') ?? '');
      const blob = await response?.blob();
      if (blob) files.push(new File([blob], name || tr`shared file`, { type: blob.type }));
    }
    return files;
  } catch {
    // Storage is switched off: nothing can have been kept.
    return [];
  }
}
