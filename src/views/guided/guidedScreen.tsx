import { Spread } from '../parts/spread.tsx';

export default function GuidedScreen() {
  return <Spread left={<h1>Guided</h1>} right={null} />;
}
