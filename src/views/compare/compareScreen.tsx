import { Spread } from '../parts/spread.tsx';

export default function CompareScreen() {
  return <Spread left={<h1>Compare</h1>} right={null} />;
}
