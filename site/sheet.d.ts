/** The text of units.css; the module is part of the bundle only. */
export const sheet: string;
