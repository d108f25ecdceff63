import { Modal } from '../parts/Modal';
import { t } from '../text/catalogue';
import { trouble } from './state';

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
