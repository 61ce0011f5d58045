import { Loading } from '../parts/loading.tsx';

export default function PackageScreen() {
  return <Loading what="the page" />;
}
