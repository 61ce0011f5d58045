import { Spread } from '../parts/spread.tsx';

export default function TodayScreen() {
  return <Spread left={<h1>Today</h1>} right={null} />;
}
