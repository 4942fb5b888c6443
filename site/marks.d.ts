/** The text of yours.css; the module is part of the bundle only. */
export const marks: string;
