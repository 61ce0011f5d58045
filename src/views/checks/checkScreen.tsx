import { Spread } from '../parts/spread.tsx';

export default function CheckScreen() {
  return <Spread left={<h1>Check</h1>} right={null} />;
}
