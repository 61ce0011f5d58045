import { Loading } from '../parts/loading.tsx';

export default function ControlScreen() {
  return <Loading what="the page" />;
}
