/** A small symmetric system of complex equations, solved again and again with other numbers. */
export interface ComplexSystem {
  /** The right side, then the solution. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  clear(): void;
  /** To the upper half: `row` is not below `column`. */
  add(row: number, column: number, re: number, im: number): void;
  addRight(row: number, re: number, im: number): void;
  solve(): void;
}

/** Elimination in the order of the rows, without a search for pivots: whoever writes it begins with what has a resistance. */
export function complexSystem(size: number): ComplexSystem {
  const mRe = new Float64Array(size * size);
  const mIm = new Float64Array(size * size);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  return {
    re,
    im,
    clear: () => {
      mRe.fill(0);
      mIm.fill(0);
      re.fill(0);
      im.fill(0);
    },
    add: (row, column, byRe, byIm) => {
      const at = row * size + column;
      mRe[at] = (mRe[at] as number) + byRe;
      mIm[at] = (mIm[at] as number) + byIm;
    },
    addRight: (row, byRe, byIm) => {
      re[row] = (re[row] as number) + byRe;
      im[row] = (im[row] as number) + byIm;
    },
    solve: () => {
      for (let column = 0; column < size; column++) {
        const top = column * size;
        const pRe = mRe[top + column] as number;
        const pIm = mIm[top + column] as number;
        const square = pRe * pRe + pIm * pIm;
        for (let row = column + 1; row < size; row++) {
          const lRe = mRe[top + row] as number;
          const lIm = mIm[top + row] as number;
          if (lRe === 0 && lIm === 0) continue;
          const line = row * size;
          const fRe = (lRe * pRe + lIm * pIm) / square;
          const fIm = (lIm * pRe - lRe * pIm) / square;
          for (let k = row; k < size; k++) {
            const tRe = mRe[top + k] as number;
            const tIm = mIm[top + k] as number;
            mRe[line + k] = (mRe[line + k] as number) - (fRe * tRe - fIm * tIm);
            mIm[line + k] = (mIm[line + k] as number) - (fRe * tIm + fIm * tRe);
          }
          const rRe = re[column] as number;
          const rIm = im[column] as number;
          re[row] = (re[row] as number) - (fRe * rRe - fIm * rIm);
          im[row] = (im[row] as number) - (fRe * rIm + fIm * rRe);
        }
      }
      for (let row = size - 1; row >= 0; row--) {
        const line = row * size;
        let sRe = re[row] as number;
        let sIm = im[row] as number;
        for (let k = row + 1; k < size; k++) {
          const aRe = mRe[line + k] as number;
          const aIm = mIm[line + k] as number;
          sRe -= aRe * (re[k] as number) - aIm * (im[k] as number);
          sIm -= aRe * (im[k] as number) + aIm * (re[k] as number);
        }
        const pRe = mRe[line + row] as number;
        const pIm = mIm[line + row] as number;
        const square = pRe * pRe + pIm * pIm;
        re[row] = (sRe * pRe + sIm * pIm) / square;
        im[row] = (sIm * pRe - sRe * pIm) / square;
      }
    },
  };
}
