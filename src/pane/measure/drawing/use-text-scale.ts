import { useEffect, useState } from "preact/hooks";

/** The size of text for which drawings are laid out, px. */
const USUAL_TEXT_PX = 16;

function textScale(): number {
  const size = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  return size > 0 ? size / USUAL_TEXT_PX : 1;
}

/** How much larger than usual a person wants text: what is written into a drawing grows with it, and needs more room. */
export function useTextScale(): number {
  const [scale, setScale] = useState(textScale);
  useEffect(() => {
    // Larger text makes the page longer.
    const observer = new ResizeObserver(() => setScale(textScale()));
    observer.observe(document.body);
    return () => observer.disconnect();
  }, []);
  return scale;
}
