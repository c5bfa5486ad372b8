import { download } from '../storage/job-files.ts';
import { tr } from '../words/tr.ts';
import { store } from './store.ts';

/** Saves a file, and offers to send it on where the device can. */
export function handOver(blob: Blob, name: string, text = tr`${name} was saved.`): void {
  download(blob, name);
  const file = new File([blob], name, { type: blob.type });
  const action = canShare(file) ? { action: { words: tr`Send it on`, run: () => void share(file) } } : {};
  store.setState({ message: { text, kind: 'news', ...action } });
}

/** Whether this device hands files to other applications. */
const canShare = (file: File): boolean => navigator.canShare?.({ files: [file] }) === true;

/** Hands a file to another application of the device; nothing happens when the person turns away. */
async function share(file: File): Promise<void> {
  try {
    await navigator.share({ files: [file], title: file.name });
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'AbortError')) throw error;
  }
}
