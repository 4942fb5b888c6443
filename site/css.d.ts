/** The published name of a style sheet of site/, for the script that alone needs it, see wear.ts. */
declare module "*.css" {
  const name: string;
  export default name;
}
