/**
 * Coverage factor for 95.45 % from so many degrees of freedom on: Student's t, each row down to the next.
 *
 * Source: JCGM 100:2008 (GUM), table G.2, from memory. Standing: derived; a test integrates Student's density.
 */
export const COVERAGE_FACTORS: readonly (readonly [degreesOfFreedom: number, factor: number])[] = [
  [1, 13.97],
  [2, 4.53],
  [3, 3.31],
  [4, 2.87],
  [5, 2.65],
  [6, 2.52],
  [7, 2.43],
  [8, 2.37],
  [9, 2.32],
  [10, 2.28],
  [11, 2.25],
  [12, 2.23],
  [13, 2.21],
  [14, 2.2],
  [15, 2.18],
  [16, 2.17],
  [17, 2.16],
  [18, 2.15],
  [19, 2.14],
  [20, 2.13],
  [25, 2.11],
  [30, 2.09],
  [40, 2.06],
  [100, 2.03],
  [300, 2.01],
  [1000, 2],
];
