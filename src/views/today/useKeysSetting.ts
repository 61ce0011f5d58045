import { useEffect, useState } from 'react';
import * as z from 'zod/mini';
import { useLogbook } from '../logbookContext.tsx';

const setting = 'today-digit-keys';

/**
 * Whether a digit alone starts a run, kept for this workstation. It can be turned off: whoever speaks to the computer, or
 * rests a hand on its keys, must not start one (WCAG 2.1.4).
 */
export function useKeysSetting(): [isOn: boolean, set: (isOn: boolean) => void] {
  const { handle } = useLogbook();
  const [isOn, setOn] = useState(true);
  useEffect(() => {
    let isStale = false;
    handle
      .readSetting(setting, z.boolean())
      // Settings that cannot be read are said where something is written; the keys are a convenience.
      .catch(() => null)
      .then((kept) => {
        if (!isStale && kept !== null) setOn(kept);
      });
    return () => {
      isStale = true;
    };
  }, [handle]);
  return [
    isOn,
    (next) => {
      setOn(next);
      handle.writeSetting(setting, next).catch(() => {});
    },
  ];
}
