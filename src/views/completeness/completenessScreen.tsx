import { Loading } from '../parts/loading.tsx';

export default function CompletenessScreen() {
  return <Loading what="the page" />;
}
