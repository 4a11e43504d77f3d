/** "8,500": the digits of a whole number, not negative, with a comma at thousands. */
export const thousands = (digits: number | string): string =>
  String(digits).replace(/\B(?=(?:\d{3})+$)/g, ',');
