import { takeFile } from './files.ts';

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
  });
  // Where it is refused (a private window, say), the page works as long as it is open.
  if (import.meta.env.PROD) void navigator.serviceWorker?.register('./sw.js').catch(() => {});
}
