/** How much finer than the drawing's own pixels. */
const SCALE = 2;

/** A drawing of the server as a PNG in base64, on white paper, whatever the theme. */
export async function pngOf(source: string): Promise<string> {
  const image = new Image();
  // On paper there is no theme: without the rules for screens the drawing keeps its light colours.
  const printed = source.replace(/^@media screen.*$/gm, '');
  const address = URL.createObjectURL(new Blob([printed], { type: 'image/svg+xml' }));
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.naturalWidth * SCALE;
    canvas.height = image.naturalHeight * SCALE;
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('this editor cannot paint pictures');
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return canvas.toDataURL('image/png').replace(/^data:image\/png;base64,/, '');
  } finally {
    URL.revokeObjectURL(address);
  }
}
