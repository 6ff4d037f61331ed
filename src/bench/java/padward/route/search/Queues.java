package padward.route.search;

import padward.route.queue.BucketQueue;
import padward.route.queue.VertexHeap;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import java.util.function.Supplier;

/**
 * Times the queues that a search could use, on what a search does to them: each item that comes out
 * puts another in, later by one of the delays of a made fabric, with or without a price. Prints
 * nanoseconds of the thread's own time for a pair of the two, at the sizes that the frontier has on
 * fabrics of a million and of ten million wires.
 *
 * <pre>mvn -q -Pbench test-compile exec:exec@queues</pre>
 */
public final class Queues {
    private static final int[] DELAYS = {50, 150, 170, 170, 170, 215, 350};
    private static final int PAIRS = 4_000_000;
    private static final int ROUNDS = 7;

    private Queues() {}

    /** A monotone queue of items by key. */
    private interface Tried {
        void push(int item, int key);

        /** Takes out an item of the least key. */
        int pop();

        /** The key of what came out last. */
        int key();
    }

    /** Runs everything. */
    public static void main(String[] args) {
        Locale.setDefault(Locale.ROOT);
        for (int size : new int[] {10_000, 100_000}) {
            for (int price : new int[] {0, 200}) {
                System.out.printf("%,d in the queue, prices up to %d ps%n", size, price);
                print("ring of buckets", Queues::ring, size, price);
                print("radix heap", RadixHeap::new, size, price);
                print("4-ary heap", Queues::heap, size, price);
            }
        }
    }

    private static void print(String name, Supplier<Tried> maker, int size, int price) {
        double[] times = new double[ROUNDS];
        long sum = 0;
        for (int i = 0; i < ROUNDS; i++) {
            long begin = cpuNanos();
            sum = run(maker.get(), size, price);
            times[i] = (double) (cpuNanos() - begin) / PAIRS;
        }
        Arrays.sort(times);
        // All queues must have given out the same keys.
        System.out.printf("  %-16s %6.1f ns   (sum of keys %d)%n", name, times[ROUNDS / 2], sum);
    }

    private static long run(Tried queue, int size, int price) {
        Random random = new Random(1);
        int[] steps = new int[1 << 16];
        for (int i = 0; i < steps.length; i++) {
            steps[i] = DELAYS[random.nextInt(DELAYS.length)];
            steps[i] += price == 0 ? 0 : random.nextInt(price);
        }
        for (int i = 0; i < size; i++) {
            queue.push(i, steps[i & 0xffff]);
        }
        long sum = 0;
        for (int i = 0; i < PAIRS; i++) {
            int item = queue.pop();
            sum += queue.key();
            queue.push(item, queue.key() + steps[i * 31 & 0xffff]);
        }
        return sum;
    }

    private static long cpuNanos() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static Tried ring() {
        BucketQueue queue = new BucketQueue();
        queue.clear(0);
        return new Tried() {
            @Override
            public void push(int item, int key) {
                queue.push(item, key);
            }

            @Override
            public int pop() {
                return queue.pop();
            }

            @Override
            public int key() {
                return queue.current();
            }
        };
    }

    private static Tried heap() {
        VertexHeap heap = new VertexHeap();
        return new Tried() {
            private int key;

            @Override
            public void push(int item, int key) {
                heap.push(item, key, 0);
            }

            @Override
            public int pop() {
                key = (int) heap.leastKey();
                return heap.pop();
            }

            @Override
            public int key() {
                return key;
            }
        };
    }

    /**
     * A radix heap (Ahuja, Mehlhorn, Orlin, Tarjan, "Faster algorithms for the shortest path
     * problem", Journal of the ACM 37(2), 1990, 213-223): bucket b holds keys whose highest bit in
     * which they differ from the last key taken out is bit b - 1.
     */
    private static final class RadixHeap implements Tried {
        private final long[][] buckets = new long[Integer.SIZE + 1][16];
        private final int[] sizes = new int[Integer.SIZE + 1];
        private int last;

        @Override
        public void push(int item, int key) {
            int bucket = Integer.SIZE - Integer.numberOfLeadingZeros(key ^ last);
            if (sizes[bucket] == buckets[bucket].length) {
                buckets[bucket] = Arrays.copyOf(buckets[bucket], sizes[bucket] * 2);
            }
            buckets[bucket][sizes[bucket]++] = (long) key << Integer.SIZE | item;
        }

        @Override
        public int pop() {
            if (sizes[0] == 0) {
                int bucket = 1;
                while (sizes[bucket] == 0) {
                    bucket++;
                }
                long[] from = buckets[bucket];
                int size = sizes[bucket];
                long least = Long.MAX_VALUE;
                for (int i = 0; i < size; i++) {
                    least = Math.min(least, from[i]);
                }
                last = (int) (least >> Integer.SIZE);
                sizes[bucket] = 0;
                for (int i = 0; i < size; i++) {
                    push((int) from[i], (int) (from[i] >> Integer.SIZE));
                }
            }
            return (int) buckets[0][--sizes[0]];
        }

        @Override
        public int key() {
            return last;
        }
    }
}
