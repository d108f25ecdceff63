import { useEffect, useRef } from 'preact/hooks';

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
