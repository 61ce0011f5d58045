/** Must run before any schema is made: whoever makes schemas of entries imports it first. */
import * as z from 'zod/mini';

/**
 * What is wrong with one value of a damaged entry. zod's small build says only "Invalid input", and its English is a
 * kilobyte that the bench would wait for.
 */
function wordsOf(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `is not ${issue.expected}`;
    case 'invalid_value':
      return `is none of ${issue.values.join(', ')}`;
    case 'invalid_format':
      return `has not the form ${issue.format}`;
    case 'too_small':
      return `is below ${issue.minimum}`;
    case 'too_big':
      return `is above ${issue.maximum}`;
    case 'unrecognized_keys':
      return `holds ${issue.keys.join(', ')}, which is not known`;
    default:
      return 'is not what it should be';
  }
}

// Jitless: zod would otherwise try whether the page may turn text into code, which it may not.
z.config({ localeError: wordsOf, jitless: true });
