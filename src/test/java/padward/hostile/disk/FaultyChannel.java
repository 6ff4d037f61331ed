package padward.hostile.disk;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.ReadableByteChannel;
import java.nio.channels.WritableByteChannel;

/** A channel whose writes meet their {@link Fate}. */
final class FaultyChannel extends FileChannel {
    private final FileChannel real;
    private final String name;

    FaultyChannel(FileChannel real, String name) {
        this.real = real;
        this.name = name;
    }

    @Override
    public int write(ByteBuffer bytes) throws IOException {
        if (Fate.meet(name, true)) {
            ByteBuffer half = bytes.duplicate();
            half.limit(half.position() + half.remaining() / 2);
            real.write(half);
            throw new Fate.Killed();
        }
        return real.write(bytes);
    }

    @Override
    public long write(ByteBuffer[] all, int offset, int length) throws IOException {
        long sum = 0;
        for (int i = offset; i < offset + length; i++) {
            sum += write(all[i]);
        }
        return sum;
    }

    @Override
    public int write(ByteBuffer bytes, long at) throws IOException {
        Fate.meetWhole(name, true);
        return real.write(bytes, at);
    }

    @Override
    public FileChannel truncate(long size) throws IOException {
        Fate.meetWhole(name, false);
        real.truncate(size);
        return this;
    }

    @Override
    public void force(boolean all) throws IOException {
        Fate.meetWhole(name, false);
    }

    @Override
    public long transferFrom(ReadableByteChannel from, long at, long most) throws IOException {
        Fate.meetWhole(name, true);
        return real.transferFrom(from, at, most);
    }

    @Override
    public int read(ByteBuffer into) throws IOException {
        return real.read(into);
    }

    @Override
    public long read(ByteBuffer[] into, int offset, int length) throws IOException {
        return real.read(into, offset, length);
    }

    @Override
    public int read(ByteBuffer into, long at) throws IOException {
        return real.read(into, at);
    }

    @Override
    public long position() throws IOException {
        return real.position();
    }

    @Override
    public FileChannel position(long at) throws IOException {
        real.position(at);
        return this;
    }

    @Override
    public long size() throws IOException {
        return real.size();
    }

    @Override
    public long transferTo(long at, long most, WritableByteChannel to) throws IOException {
        return real.transferTo(at, most, to);
    }

    @Override
    public MappedByteBuffer map(MapMode mode, long at, long size) throws IOException {
        return real.map(mode, at, size);
    }

    @Override
    public FileLock lock(long at, long size, boolean shared) throws IOException {
        return real.lock(at, size, shared);
    }

    @Override
    public FileLock tryLock(long at, long size, boolean shared) throws IOException {
        return real.tryLock(at, size, shared);
    }

    /** The system closes the files of a killed program, too. */
    @Override
    protected void implCloseChannel() throws IOException {
        real.close();
    }
}
