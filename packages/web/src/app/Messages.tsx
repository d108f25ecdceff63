import { useEffect } from 'preact/hooks';
import { Modal } from '../parts/Why';
import { t } from '../text/catalogue';
import { toast, trouble } from './state';

/** One line that says what was just done. */
export function Toast() {
  const now = toast.value;
  useEffect(() => {
    if (now === null) return;
    const timer = setTimeout(() => {
      if (toast.peek()?.n === now.n) toast.value = null;
    }, 3200);
    return () => clearTimeout(timer);
  }, [now?.n]);
  return (
    <div class="toast-place" role="status">
      {now !== null && <p class="toast">{now.text}</p>}
    </div>
  );
}

/** A file that was refused, with the place of what is wrong. */
export function Problems() {
  const now = trouble.value;
  if (now === null) return null;
  const close = () => {
    trouble.value = null;
  };
  return (
    <Modal label={now.title} close={close} kind="problems">
      <div class="editor-head">
        <h2>{now.title}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={close}>
          ×
        </button>
      </div>
      <ul>
        {now.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p class="hint">{t.files.untouched}</p>
    </Modal>
  );
}
