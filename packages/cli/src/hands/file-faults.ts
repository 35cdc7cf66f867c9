/** What an operating system says of a file, in words for people; the names of its calls and codes stay out. @module */

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'a part of its path is a file, not a folder',
  EISDIR: 'it is a folder',
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk can only be read',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  EEXIST: 'it exists already',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open',
  ELOOP: 'its links lead in a circle',
  EBUSY: 'another program is using it',
  EPIPE: 'what reads it was closed',
};

/** The reason in words; the code alone where it is an unusual one. */
export function fileFault(error: unknown): string {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : undefined;
  if (code === undefined) return error instanceof Error ? error.message : String(error);
  return REASONS[code] ?? `the system says ${code}`;
}
