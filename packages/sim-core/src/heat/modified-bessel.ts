/**
 * Modified Bessel functions of order 0 and 1, as annular fins need them: polynomials in x below a border and in 1/x above it.
 *
 * *Holds for* I: 0 ≤ x ≤ 700 (above, e^x leaves the number range), K: x > 0; otherwise a RangeError. Relative error below 5.6·10⁻⁷ (the source's
 * bounds 2.2·10⁻⁷ over 0.399; measured against the integral forms in the tests: 4.8·10⁻⁷).
 * *Source* M. Abramowitz & I.A. Stegun, Handbook of Mathematical Functions, 1964, eqs. 9.8.1–9.8.8.
 *
 * @module
 */

const LARGEST = 700;

const requireArgument = (x: number, lowest: number): void => {
  if (!(x >= lowest && x <= LARGEST)) throw new RangeError(`A modified Bessel function is asked for x = ${x}; it holds to ${LARGEST}.`);
};

/** 9.8.1, 9.8.2: I₀(x). */
export const besselI0 = (x: number): number => {
  requireArgument(x, 0);
  if (x < 3.75) {
    const t = (x / 3.75) ** 2;
    return 1 + t * (3.5156229 + t * (3.0899424 + t * (1.2067492 + t * (0.2659732 + t * (0.0360768 + t * 0.0045813)))));
  }
  const u = 3.75 / x;
  const tail = -0.02057706 + u * (0.02635537 + u * (-0.01647633 + u * 0.00392377));
  return (
    (Math.exp(x) / Math.sqrt(x)) * (0.39894228 + u * (0.01328592 + u * (0.00225319 + u * (-0.00157565 + u * (0.00916281 + u * tail)))))
  );
};

/** 9.8.3, 9.8.4: I₁(x). */
export const besselI1 = (x: number): number => {
  requireArgument(x, 0);
  if (x < 3.75) {
    const t = (x / 3.75) ** 2;
    return x * (0.5 + t * (0.87890594 + t * (0.51498869 + t * (0.15084934 + t * (0.02658733 + t * (0.00301532 + t * 0.00032411))))));
  }
  const u = 3.75 / x;
  const tail = 0.02282967 + u * (-0.02895312 + u * (0.01787654 - u * 0.00420059));
  return (
    (Math.exp(x) / Math.sqrt(x)) * (0.39894228 + u * (-0.03988024 + u * (-0.00362018 + u * (0.00163801 + u * (-0.01031555 + u * tail)))))
  );
};

/** 9.8.5, 9.8.6: K₀(x). */
export const besselK0 = (x: number): number => {
  requireArgument(x, Number.MIN_VALUE);
  if (x <= 2) {
    const t = (x / 2) ** 2;
    const sum = -0.57721566 + t * (0.4227842 + t * (0.23069756 + t * (0.0348859 + t * (0.00262698 + t * (0.0001075 + t * 0.0000074)))));
    return -Math.log(x / 2) * besselI0(x) + sum;
  }
  const u = 2 / x;
  const tail = -0.0025154 + u * 0.00053208;
  return (
    (Math.exp(-x) / Math.sqrt(x)) * (1.25331414 + u * (-0.07832358 + u * (0.02189568 + u * (-0.01062446 + u * (0.00587872 + u * tail)))))
  );
};

/** 9.8.7, 9.8.8: K₁(x). */
export const besselK1 = (x: number): number => {
  requireArgument(x, Number.MIN_VALUE);
  if (x <= 2) {
    const t = (x / 2) ** 2;
    const sum = 1 + t * (0.15443144 + t * (-0.67278579 + t * (-0.18156897 + t * (-0.01919402 + t * (-0.00110404 - t * 0.00004686)))));
    return Math.log(x / 2) * besselI1(x) + sum / x;
  }
  const u = 2 / x;
  const tail = 0.00325614 - u * 0.00068245;
  return (
    (Math.exp(-x) / Math.sqrt(x)) * (1.25331414 + u * (0.23498619 + u * (-0.0365562 + u * (0.01504268 + u * (-0.00780353 + u * tail)))))
  );
};
