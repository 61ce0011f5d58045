import { Loading } from '../parts/loading.tsx';

export default function ReportScreen() {
  return <Loading what="the page" />;
}
