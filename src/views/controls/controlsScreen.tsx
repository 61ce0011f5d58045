import { Loading } from '../parts/loading.tsx';

export default function ControlsScreen() {
  return <Loading what="the page" />;
}
