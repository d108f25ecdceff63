import type { Notice } from '@sunlap/engine/numeric/notice';
import { useEffect, useRef } from 'preact/hooks';
import { whyOpen } from '../app/state';
import { t } from '../text/catalogue';
import type { WhyText } from '../text/why';
import type { Readout } from './readout';

interface Props {
  readouts: readonly Readout[];
  text: (id: string) => WhyText | null;
  notices: readonly Notice[];
}

/** A dialog that keeps focus inside while it is open. */
export function Modal({
  label,
  close,
  children,
  kind,
}: {
  label: string;
  close: () => void;
  children: preact.ComponentChildren;
  kind: string;
}) {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current;
    if (dialog !== null && !dialog.open) dialog.showModal();
    return () => dialog?.close();
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes a dialog by itself; the click is on its ground
    <dialog
      ref={box}
      class={`modal ${kind}`}
      aria-label={label}
      onClose={close}
      onClick={(event) => {
        if (event.target === box.current) close();
      }}
    >
      <div class="modal-in">{children}</div>
    </dialog>
  );
}

/** Inputs, equation in words, source, notes: why an answer is what it is. */
export function Why({ readouts, text, notices }: Props) {
  const id = whyOpen.value;
  const readout = readouts.find((r) => r.id === id);
  const why = id === null ? null : text(id);
  if (id === null || readout === undefined || why === null) return null;
  const close = () => {
    whyOpen.value = null;
  };
  const touching = notices.filter((n) => why.touches.some((w) => `${n.code} ${n.path}`.includes(w)));
  const value = readout.value === null ? null : readout.write(readout.value);
  return (
    <Modal label={t.why.title(readout.label)} close={close} kind="why">
      <div class="editor-head">
        <h2>{readout.label}</h2>
        <button type="button" class="plain" aria-label={t.close} onClick={close}>
          ×
        </button>
      </div>
      <p class="why-value">
        {readout.word ?? value?.number}{' '}
        <span>{readout.word === undefined ? (readout.unit ?? value?.unit) : ''}</span>
      </p>
      {readout.band !== undefined && (
        <p class="hint">{t.why.bandText(readout.band.low, readout.band.high)}</p>
      )}
      <h3>{t.why.equation}</h3>
      <p>{why.equation}</p>
      <h3>{t.why.inputs}</h3>
      <dl>
        {why.inputs.map(([label, v]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{v}</dd>
          </div>
        ))}
      </dl>
      <h3>{t.why.source}</h3>
      <p class="hint">{why.source}</p>
      {touching.length > 0 && (
        <>
          <h3>{t.why.notices}</h3>
          <ul class="why-notes">
            {touching.map((n) => (
              <li key={n.code + n.path}>
                {n.message} {n.remedy}
              </li>
            ))}
          </ul>
        </>
      )}
    </Modal>
  );
}
