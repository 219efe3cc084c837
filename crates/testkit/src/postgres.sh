# A PostgreSQL that lives as long as somebody holds its input open: `sh postgres.sh BIN PLACE`.
# PLACE is where its folder is made; left out, in memory where there is room.
# It says where it is (the folder of its socket) in one line once it answers, and leaves nothing behind.
set -eu
bin=$1
place=${2:-}
room=$(df -Pk /dev/shm 2>/dev/null | awk 'NR == 2 { print $4 }')
if [ -z "$place" ] && [ "${room:-0}" -gt 1000000 ]; then place=/dev/shm; fi
folder=$(mktemp -d -p "${place:-/tmp}")
trap 'rm -rf "$folder"' EXIT
# In a language whose order of letters is not that of the bytes, so that a test would notice.
"$bin/initdb" --no-sync --auth=trust --username=shaftbook --encoding=UTF8 --no-locale \
    --locale-provider=icu --icu-locale=en-US -D "$folder/data" >"$folder/log" 2>&1 || { cat "$folder/log" >&2; exit 1; }
"$bin/postgres" -D "$folder/data" -k "$folder" -c listen_addresses= -c max_connections=300 \
    -c fsync=on -c synchronous_commit=on -c log_min_messages=fatal >>"$folder/log" 2>&1 </dev/null &
server=$!
until "$bin/pg_isready" -q -h "$folder"; do
    kill -0 "$server" 2>/dev/null || { cat "$folder/log" >&2; exit 1; }
    sleep 0.05
done
echo "$folder"
# Until whoever started this lets go, or is gone.
cat >/dev/null
# At once: nothing of it is needed any more.
kill -QUIT "$server"
wait "$server" || true
