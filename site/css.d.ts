/** A style sheet of site/, minified, as a text: for the script that alone needs it, see wear.ts. */
declare module "*.css" {
  const text: string;
  export default text;
}
