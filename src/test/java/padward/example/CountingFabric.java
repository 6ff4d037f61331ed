package padward.example;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/** A fabric that counts at how many vertices edges were looked at, on any thread. */
public final class CountingFabric {
    private final Fabric counted;
    private final AtomicLong count = new AtomicLong();
    private final Map<String, Integer> calls = new ConcurrentHashMap<>();
    private final Fabric inner;

    public CountingFabric(Fabric inner) {
        this.inner = inner;
        this.counted =
                (Fabric)
                        Proxy.newProxyInstance(
                                CountingFabric.class.getClassLoader(),
                                new Class<?>[] {Fabric.class},
                                (proxy, method, args) -> invoke(method, args));
    }

    private Object invoke(Method method, Object[] args) throws Throwable {
        calls.merge(method.getName(), 1, Integer::sum);
        try {
            Object result = method.invoke(inner, args);
            return result instanceof EdgeCursor cursor ? new Counting(cursor) : result;
        } catch (InvocationTargetException e) {
            throw e.getCause();
        }
    }

    /** The fabric to be used. */
    public Fabric fabric() {
        return counted;
    }

    /** How many vertices' edges have been looked at so far. */
    public long count() {
        return count.get();
    }

    /** How often a method of the fabric has been called so far. */
    public int calls(String method) {
        return calls.getOrDefault(method, 0);
    }

    /** A progress that notes how many vertices' edges are looked at between two of its checks. */
    public Checked checked() {
        return new Checked();
    }

    /** See {@link #checked}. It never cancels. */
    public final class Checked implements Progress {
        private long last = count();
        private long most;

        @Override
        public void report(double fraction, String message) {}

        @Override
        public synchronized boolean cancelled() {
            note();
            return false;
        }

        private void note() {
            most = Math.max(most, count() - last);
            last = count();
        }

        /** The most so far, the time since the last check included. */
        public synchronized long most() {
            note();
            return most;
        }
    }

    private final class Counting implements EdgeCursor {
        private final EdgeCursor cursor;

        Counting(EdgeCursor cursor) {
            this.cursor = cursor;
        }

        @Override
        public void reset(int vertex) {
            count.incrementAndGet();
            cursor.reset(vertex);
        }

        @Override
        public boolean next() {
            return cursor.next();
        }

        @Override
        public int other() {
            return cursor.other();
        }

        @Override
        public EdgeKind kind() {
            return cursor.kind();
        }

        @Override
        public int delayPs(Corner corner) {
            return cursor.delayPs(corner);
        }

        @Override
        public Delay delay() {
            return cursor.delay();
        }
    }
}
