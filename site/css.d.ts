/** The published name of a style sheet of site/, for the script that alone needs it, see wear.ts. */
declare module "*.css" {
  const name: string;
  export default name;
}

/** The published name of a file that the build makes, see made in build/bundle/script.go. */
declare module "*.txt" {
  const name: string;
  export default name;
}
