#![no_main]
libfuzzer_sys::fuzz_target!(|bytes: &[u8]| longsmoke_fuzz::values(bytes));
